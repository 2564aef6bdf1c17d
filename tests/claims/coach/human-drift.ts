import { mean, median } from 'simple-statistics';
import { findings } from '../../../src/coach/findings';
import { EDGE_AND_RIM } from '../../../src/kit/built-in-kits';
import { boundariesOf } from '../../../src/kit/boundaries-of';
import { readStrokes } from '../../../src/kit/read-strokes';
import type { Stroke } from '../../../src/kit/stroke';
import { hitWindow } from '../../../src/match/hit-window';
import { matchTake } from '../../../src/match/match-take';
import type { Plan } from '../../../src/match/plan';
import type { TimedNote } from '../../../src/match/timed-note';
import { checkPhrase } from '../../../src/phrase/file/parse-phrase';
import type { Limb } from '../../../src/phrase/model/limb';
import type { Voice } from '../../../src/phrase/model/voice';
import { judge, type Judgement } from '../../../src/score/judge';
import { tTwoSided } from '../../../src/score/statistics/student-t';
import { readMidiFile } from '../../../src/take/read-midi-file';
import { beats } from '../../../src/time/beats';
import { parseMeter } from '../../../src/time/meter';
import { steadyTempo } from '../../../src/time/tempo';
import { humanTake, STATED } from '../../take/human-takes';

/** What became of a take of a professional to a click. */
export interface HumanDrift {
  readonly name: string;
  readonly bars: number;
  /** Of the bar medians, by least squares. */
  readonly slopeMsABar: number;
  /** That there is no such slope. */
  readonly p: number;
  readonly isClaimed: boolean;
  /** All that the coach claims. */
  readonly codes: readonly string[];
}

/** Beats among the human takes; the fills are too short. Partials of a quarter, by the style that is stated. */
const PARTIALS: ReadonlyMap<string, number> = new Map([
  ['take-01.mid', 4],
  ['take-02.mid', 3],
  ['take-03.mid', 3],
  ['take-04.mid', 4],
  ['take-05.mid', 4],
  ['take-06.mid', 4],
  ['take-07.mid', 4],
  ['take-08.mid', 4],
]);

const FEET: Readonly<Partial<Record<Voice, Limb>>> = {
  'bass drum': 'K',
  'hi-hat pedal': 'F',
  'hi-hat foot splash': 'F',
};

/** Which hand it was nobody knows: the left has the snare, the right the rest. */
const limbOf = (voice: Voice): Limb =>
  FEET[voice] ?? (voice === 'snare' || voice === 'side stick' ? 'L' : 'R');

export const humanDrifts = (): HumanDrift[] =>
  [...PARTIALS].map(([name, partials]) => humanDrift(name, partials));

function humanDrift(name: string, partials: number): HumanDrift {
  const { bpm, meter } = STATED.get(name)!;
  const barQuarters = parseMeter(meter)!;
  const quartersPerBar = barQuarters.beatsPerBar * barQuarters.quartersPerBeat.valueOf();
  const { judgement, barOf } = judgedAsWritten(name, bpm, partials, quartersPerBar);
  const byBar = new Map<number, number[]>();
  for (const { due, offsetUs } of judgement.notes) {
    const bar = barOf(due);
    if (offsetUs !== undefined) byBar.set(bar, [...(byBar.get(bar) ?? []), offsetUs / 1000]);
  }
  const bars = [...byBar].map(([bar, ms]) => ({ bar, ms: median(ms) }));
  const said = findings(planOf(bpm, meter, partials), judgement, (pad) =>
    boundariesOf(EDGE_AND_RIM, pad),
  );
  const codes = said.map(({ code }) => code);
  return { name, bars: bars.length, ...slopeOf(bars), isClaimed: codes.includes('drift'), codes };
}

/** A stroke on each partial of the bar: whatever is written, tempo, bars and partials are these. */
function planOf(bpm: number, meterText: string, partials: number): Plan {
  const { beatsPerBar, quartersPerBeat } = parseMeter(meterText)!;
  const quarters = quartersPerBeat.valueOf();
  const tempoBpm = bpm / quarters;
  const checked = checkPhrase({
    title: 'Every partial',
    meter: meterText,
    tempoBpm: Math.round(tempoBpm),
    subdivision: partials * quarters,
    grouping: Array.from({ length: beatsPerBar * partials * quarters }, () => 'R').join(' '),
    layers: [{ name: 'Strokes' }],
  });
  if (!checked.ok) throw new Error(checked.errors[0]!.message);
  return {
    phrase: checked.value,
    passages: [{ fromBar: 1, layer: 1 }],
    tempo: steadyTempo(tempoBpm),
    windows: {},
  };
}

/** The take as if it were written on the partials that it is nearest to. */
function judgedAsWritten(name: string, bpm: number, partials: number, quartersPerBar: number) {
  const file = readMidiFile(humanTake(name));
  if (!file.ok) throw new Error(file.errors[0]!.message);
  const { strokes, setAside } = readStrokes(file.value.messages, EDGE_AND_RIM);
  const counted = strokes.filter((_, i) => setAside[i] === 0);
  const partialUs = 60e6 / bpm / partials;
  const perBar = quartersPerBar * partials;
  const notes = new Map<string, TimedNote>();
  for (const { timeUs, voice } of counted) {
    const partial = Math.round(timeUs / partialUs);
    notes.set(`${partial} ${voice}`, noteAt(partial, voice, partialUs, partials, perBar));
  }
  const due = [...notes.values()].sort((a, b) => a.timeUs - b.timeUs);
  return { judgement: judged(due, counted), barOf: ({ note }: TimedNote) => note.bar };
}

function noteAt(
  partial: number,
  voice: Voice,
  partialUs: number,
  partials: number,
  perBar: number,
): TimedNote {
  const inBar = partial % perBar;
  const bar = Math.floor(partial / perBar) + 1;
  const note = {
    onset: beats(partial, partials),
    graceStep: 0,
    graceOf: undefined,
    bar,
    beat: beats(inBar, partials).add(1),
    cycle: bar,
    position: inBar + 1,
    limb: limbOf(voice),
    voice,
    level: 'tap',
    layers: [1],
  } as const;
  const timeUs = Math.round(partial * partialUs);
  return { note, passage: 0, layer: 1, timeUs, ...hitWindow(partialUs) };
}

const judged = (due: readonly TimedNote[], strokes: readonly Stroke[]): Judgement =>
  judge(
    due,
    strokes,
    matchTake(due, strokes),
    ({ pad }) => boundariesOf(EDGE_AND_RIM, pad),
    () => ({ accents: false, ghosts: false }),
  );

/** Least squares, and the t test of its slope. */
export function slopeOf(bars: readonly { readonly bar: number; readonly ms: number }[]): {
  readonly slopeMsABar: number;
  readonly p: number;
} {
  const atX = mean(bars.map(({ bar }) => bar));
  const atY = mean(bars.map(({ ms }) => ms));
  let xx = 0;
  let xy = 0;
  let yy = 0;
  for (const { bar, ms } of bars) {
    xx += (bar - atX) ** 2;
    xy += (bar - atX) * (ms - atY);
    yy += (ms - atY) ** 2;
  }
  const slopeMsABar = xy / xx;
  const degrees = bars.length - 2;
  const error = Math.sqrt((yy - slopeMsABar * xy) / degrees / xx);
  return { slopeMsABar, p: tTwoSided(slopeMsABar / error, degrees) };
}
