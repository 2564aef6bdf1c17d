import { judge, type Judgement } from '../../src/score/judge';
import type { Plan } from '../../src/match/plan';
import { matchTake } from '../../src/match/match-take';
import { timedNotes } from '../../src/match/timed-notes';
import type { TimedNote } from '../../src/match/timed-note';
import type { Stroke } from '../../src/kit/stroke';
import { checkPhrase } from '../../src/phrase/file/parse-phrase';
import { simulate, type Faults } from '../../src/take/simulate';
import { writtenLevels } from '../score/cases';
import { beats } from '../../src/time/beats';
import { steadyTempo } from '../../src/time/tempo';

/** Sixteen partials over all four limbs: 16 notes a cycle, a bar of 4/4. */
const HARBOUR = {
  title: 'Breakwater',
  meter: '4/4',
  tempoBpm: 96,
  subdivision: 4,
  grouping: 'R+K L R L R+F L K L R L R+K L R+F L R L',
  layers: [
    { name: 'Sticking', changes: [{ where: { limb: 'R' }, set: { voice: 'ride' } }] },
    {
      name: 'Dynamics',
      changes: [
        { where: { limb: 'L' }, set: { level: 'ghost' } },
        { where: { limb: 'L', positions: [6, 14] }, set: { level: 'accent' } },
        { where: { limb: 'R', positions: [1, 9] }, set: { level: 'accent' } },
      ],
    },
  ],
};

export const BOUNDARIES = { ghostMax: 50, accentMin: 95 };
/** The partial of the phrase above, ms: a quarter of 625 ms. */
export const PARTIAL_MS = 156.25;

/** A layer of a phrase, the one above where none is given, from bar 1 on. */
export function harbourPlan(layer = 2, file: unknown = HARBOUR): Plan {
  const phrase = checkPhrase(file);
  if (!phrase.ok) throw new Error(JSON.stringify(phrase.errors));
  const tempo = steadyTempo(phrase.value.tempoBpm);
  return { phrase: phrase.value, passages: [{ fromBar: 1, layer }], tempo, windows: {} };
}

/** Its notes in so many bars of four beats. */
export function harbourNotes(bars: number, layer = 2, file: unknown = HARBOUR): TimedNote[] {
  const plan = harbourPlan(layer, file);
  return timedNotes(plan, plan.tempo.usAt(beats(bars * 4)) - 1);
}

/** A human enough player: 8 ms of spread and a little change of velocity. */
export const HUMAN: Faults = { spreadMs: 8, velocitySpread: 5 };

/** Strokes of a simulated player; `bend` changes or drops what answers one note. */
export function play(
  notes: readonly TimedNote[],
  faults: Faults,
  seed: number,
  bend: (stroke: Stroke, due: TimedNote) => Stroke | undefined = (stroke) => stroke,
): Stroke[] {
  return simulate(notes, faults, seed).truth.flatMap((struck) => {
    if (struck.kind === 'missed') return [];
    const { timeUs, voice, velocity } = struck;
    return bend({ timeUs, voice, velocity, pad: 0 }, notes[struck.note]!) ?? [];
  });
}

export const judged = (notes: readonly TimedNote[], strokes: readonly Stroke[]): Judgement =>
  judge(notes, strokes, matchTake(notes, strokes), () => BOUNDARIES, writtenLevels(notes));

export const later = (stroke: Stroke, ms: number): Stroke => ({
  ...stroke,
  timeUs: stroke.timeUs + Math.round(ms * 1000),
});
