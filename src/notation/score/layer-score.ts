import { expand } from '../../phrase/layers/expand';
import { layerStack } from '../../phrase/layers/layer-stack';
import { realignment } from '../../phrase/layers/realignment';
import { isHand, LIMBS } from '../../phrase/model/limb';
import type { Note } from '../../phrase/model/note';
import type { Phrase } from '../../phrase/model/phrase';
import { swings } from '../../phrase/model/swing';
import { syllable } from '../../phrase/model/syllable';
import { mainNotes, type MainNote } from '../main-notes';
import { STAFF_PLACES } from '../staff-places';
import { writtenBeat } from '../written-beat';
import type {
  BeatGroup,
  CycleBracket,
  Score,
  ScoreBar,
  StaffEvent,
  StaffNote,
  StaffVoice,
} from './score';

/** Bars written unless more are asked for: a cycle that takes longer to come round is cut. Chosen, not measured. @example MOST_BARS // => 64 */
export const MOST_BARS = 64;

/** The main notes of one partial with their grace notes. */
type Struck = readonly MainNote<Note>[];

/**
 * Writes a layer (1-based) of a phrase out: its pickup and as many bars as are asked for, or as it takes until
 * cycle start and bar line meet again, at most 64. Onsets are as they are written, before any swing.
 *
 * @throws RangeError when the phrase has no such layer, or `bars` is not a whole number from 1.
 * @example layerScore(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, 1).bars.map(({ stickings }) => stickings.slice(0, 4).join(' ')) // => ['R L K R', 'L K R L', 'K R L K']
 */
export function layerScore(
  phrase: Phrase,
  layer: number,
  bars = Math.min(MOST_BARS, barsToRealign(phrase, layer)),
): Score {
  if (!Number.isSafeInteger(bars) || bars < 1)
    throw new RangeError(`expected a whole number of bars from 1, got ${bars}`);
  const laid = layerStack(phrase, layer);
  const { subdivision, barPartials, displace, swing } = laid.grid;
  const struck = byPartial(expand(phrase, layer, { bars }), barPartials, subdivision);
  const lead = Math.max(0, ...[...struck.keys()].map((partial) => -partial));
  const pickup = Math.ceil(lead / subdivision) * subdivision;
  const end = bars * barPartials;
  const writer = { phrase, layer, subdivision, barPartials, struck };
  const score: ScoreBar[] = [];
  for (let number = 1 - Math.ceil(pickup / barPartials); number <= bars; number++) {
    const from = (number - 1) * barPartials;
    score.push(scoreBar(writer, number, Math.max(from, -pickup), from + barPartials));
  }
  return {
    title: phrase.title,
    layer,
    layerName: phrase.layers[layer - 1]!.name,
    meter: phrase.meter,
    meterText: phrase.meterText,
    tempoBpm: phrase.tempoBpm,
    swing: swings(phrase.meter, subdivision) ? swing : undefined,
    subdivision,
    bars: score,
    cycle: phrase.cycle,
    displace,
    period: laid.period * phrase.cycle,
    brackets: cycleBrackets(phrase.cycle, displace, end),
    isRepeated: displace === 0 && end % (laid.period * phrase.cycle) === 0,
  };
}

/** Bars until cycle start and bar line meet again, those ahead of a displaced first cycle included. */
function barsToRealign(phrase: Phrase, layer: number): number {
  const { barPartials, displace } = layerStack(phrase, layer).grid;
  return realignment(phrase, layer).bars + Math.max(0, Math.ceil(displace / barPartials));
}

interface Writer {
  readonly phrase: Phrase;
  readonly layer: number;
  readonly subdivision: number;
  readonly barPartials: number;
  readonly struck: ReadonlyMap<number, Struck>;
}

/** What is struck, by whole partials from bar 1 beat 1. */
function byPartial(
  notes: readonly Note[],
  barPartials: number,
  subdivision: number,
): ReadonlyMap<number, Struck> {
  const at = new Map<number, Note[]>();
  for (const note of notes) {
    const inBar = note.beat.sub(1).mul(subdivision).valueOf();
    const partial = (note.bar - 1) * barPartials + inBar;
    const here = at.get(partial);
    if (here) here.push(note);
    else at.set(partial, [note]);
  }
  return new Map([...at].map(([partial, here]) => [partial, mainNotes(here)]));
}

function scoreBar(writer: Writer, number: number, from: number, to: number): ScoreBar {
  const { phrase, subdivision, struck } = writer;
  const partials = Array.from({ length: to - from }, (_, i) => from + i);
  return {
    number,
    partial: from,
    partials: to - from,
    voices: {
      hands: voiceGroups(writer, 'hands', number, from, to),
      feet: voiceGroups(writer, 'feet', number, from, to),
    },
    counts: partials.map((partial) => syllable(phrase.meter, subdivision, partial)),
    stickings: partials.map((partial) =>
      [...(struck.get(partial) ?? [])]
        .sort((a, b) => LIMBS.indexOf(a.main.limb) - LIMBS.indexOf(b.main.limb))
        .map(({ sticking }) => sticking)
        .join('+'),
    ),
  };
}

function voiceGroups(
  writer: Writer,
  voice: StaffVoice,
  bar: number,
  from: number,
  to: number,
): readonly BeatGroup[] {
  const { phrase, subdivision, struck } = writer;
  const inVoice = (partial: number): Struck =>
    (struck.get(partial) ?? []).filter(({ main }) => isHand(main.limb) === (voice === 'hands'));
  const groups: BeatGroup[] = [];
  for (let beat = from; beat < to; beat += subdivision) {
    const onsets = Array.from({ length: subdivision }, (_, i) => i).filter(
      (i) => inVoice(beat + i).length > 0,
    );
    const { values, beams, flagged, tuplet } = writtenBeat(
      phrase.meter,
      subdivision,
      onsets,
      0,
      subdivision,
    );
    const events = values.map((value): StaffEvent => {
      const partial = beat + value.from;
      const { partials, flags, dotted } = value;
      const name = eventName(writer, bar, partial);
      const here = value.isRest ? [] : inVoice(partial);
      const notes = staffNotes(writer, name, here);
      return {
        id: notes[0]?.id ?? `${name}-${voice}`,
        partial,
        partials,
        flags,
        dotted,
        notes,
        graces: graceNotes(writer, name, here),
      };
    });
    groups.push({ events, beams, flagged, tuplet });
  }
  return groups.some(({ events }) => events.some(({ notes }) => notes.length > 0)) ? groups : [];
}

function eventName({ layer, barPartials }: Writer, bar: number, partial: number): string {
  const number = bar < 1 ? `u${-bar}` : `b${bar}`;
  return `l${layer}-${number}-p${partial - (bar - 1) * barPartials}`;
}

function staffNotes(writer: Writer, name: string, here: Struck): readonly StaffNote[] {
  return here
    .map(({ main }) => staffNote(writer, `${name}-${main.limb}`, main))
    .sort((a, b) => b.place - a.place || LIMBS.indexOf(a.limb) - LIMBS.indexOf(b.limb));
}

/** Of all main notes of a partial together, the one farthest ahead first. */
function graceNotes(writer: Writer, name: string, here: Struck): readonly StaffNote[] {
  return here
    .flatMap(({ main, graces }) => graces.map((note) => ({ note, of: main.limb })))
    .sort((a, b) => b.note.graceStep - a.note.graceStep)
    .map(({ note, of }) => staffNote(writer, `${name}-${of}-g${note.graceStep}`, note));
}

function staffNote({ layer }: Writer, id: string, note: Note): StaffNote {
  const { limb, voice, level, graceStep, layers } = note;
  return {
    id,
    limb,
    voice,
    level,
    graceStep,
    place: STAFF_PLACES[voice],
    isNew: layer > 1 && layers.includes(layer),
  };
}

function cycleBrackets(cycle: number, displace: number, end: number): readonly CycleBracket[] {
  const brackets: CycleBracket[] = [];
  for (let from = displace, number = 1; from < end; from += cycle, number++) {
    const to = from + cycle;
    if (to <= 0) continue;
    brackets.push({
      cycle: number,
      from: Math.max(0, from),
      to: Math.min(end, to),
      isCut: from < 0 || to > end,
    });
  }
  return brackets;
}
