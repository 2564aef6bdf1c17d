import type { Plan } from '../match/plan';
import type { TimedNote } from '../match/timed-note';
import { roundPartials } from '../phrase/exercise/excerpt-places';
import type { Excerpt } from '../phrase/exercise/excerpt-words';
import type { ExerciseChoice } from '../phrase/exercise/exercise';
import { firstPlace } from '../phrase/exercise/first-place';
import { gridAt, type Grid } from '../phrase/model/grid';
import type { Phrase } from '../phrase/model/phrase';
import { remainder } from '../time/whole';
import type { Finding } from './finding';

/** What a finding's advice names, as it is practised. */
export interface FindingExercise {
  /** 1-based. */
  readonly layer: number;
  readonly bpm: number;
  /** Undefined where it is the layer itself. */
  readonly exercise: ExerciseChoice | undefined;
}

/** Of the tempo that was played to. Chosen, not measured. */
export const SLOWER = 3 / 4;

/**
 * What the advice of a finding names, as far as it can be practised. Notes are those within a bar of `at`, which is one of
 * them, from the beginning of the beat before; a pickup has the beat that it leads to. Undefined where the advice names nothing to
 * practise.
 */
export function findingExercise(
  plan: Pick<Plan, 'phrase' | 'tempo'>,
  { drill, notes }: Pick<Finding, 'drill' | 'notes'>,
  at: TimedNote,
): FindingExercise | undefined {
  const { layer } = at;
  const bpm = plan.tempo.bpmAt(at.note.onset);
  const whole = { layer, bpm, exercise: undefined };
  switch (drill?.kind) {
    case 'these notes':
      return { ...whole, exercise: { excerpt: excerptAt(plan, notes, at) } };
    case 'these notes slower':
      return { layer, bpm: SLOWER * bpm, exercise: { excerpt: excerptAt(plan, notes, at) } };
    case 'layer slower':
      return { ...whole, bpm: SLOWER * bpm };
    case 'limb alone':
      return { ...whole, exercise: { part: { limb: at.note.limb } } };
    case 'other layer':
      return { ...whole, layer: drill.layer };
    case 'turns':
      return { ...whole, exercise: { answerCycles: drill.cycles } };
    case 'other tempo':
      return { ...whole, bpm: drill.bpm };
    case 'rig offset':
    case 'note map':
    case undefined:
      return undefined;
  }
}

function excerptAt(
  { phrase }: Pick<Plan, 'phrase'>,
  notes: readonly TimedNote[],
  at: TimedNote,
): Excerpt {
  const grid = gridAt(phrase, at.layer);
  const { barPartials, subdivision } = grid;
  const first = partialOf(phrase, grid, at);
  const partials = notes
    .filter(({ passage }) => passage === at.passage)
    .map((due) => partialOf(phrase, grid, due));
  const last = Math.max(first, ...partials.filter((one) => one < first + barPartials));
  if (first < 0) return { from: first, to: Math.max(last, subdivision - 1) };
  const from = first - remainder(first, subdivision) - subdivision;
  return firstPlace({ from, to: last }, roundPartials(phrase, at.layer));
}

/** A note's partial from bar 1 beat 1 of its passage, as it is written. */
export function partialOf({ cycle }: Phrase, { displace }: Grid, { note }: TimedNote): number {
  return note.cycle === 0 ? note.position : (note.cycle - 1) * cycle + displace + note.position - 1;
}
