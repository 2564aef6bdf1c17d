import type { Plan } from '../match/plan';
import type { TimedNote } from '../match/timed-note';
import type { ExerciseChoice } from '../phrase/exercise/exercise';
import { roundPartials } from '../phrase/exercise/excerpt-places';
import { firstPlace } from '../phrase/exercise/first-place';
import { gridAt, type Grid } from '../phrase/model/grid';
import type { Phrase } from '../phrase/model/phrase';
import { remainder } from '../time/whole';
import type { Finding } from './finding';
import type { FindingCode } from './wording';

/** Told of notes that can be practised by themselves; the others are of the playing as a whole. */
const OF_SOME_NOTES: ReadonlySet<FindingCode> = new Set([
  'partial off',
  'limb off',
  'voice off',
  'level off',
  'position off',
  'transition off',
  'unison off',
  'spread apart',
  'missed',
  'own notes wrong',
  'too loud',
  'too soft',
  'wrong voice',
]);

/**
 * What to practise of a finding: the limb alone where it is of a limb's placing, else its notes within a bar of `at`, which
 * is one of them, from the beginning of the beat before; a pickup has the beat that it leads to. Undefined where it is of the playing as a whole.
 */
export function findingExercise(
  { phrase }: Pick<Plan, 'phrase'>,
  { code, notes }: Pick<Finding, 'code' | 'notes'>,
  at: TimedNote,
): ExerciseChoice | undefined {
  if (!OF_SOME_NOTES.has(code)) return undefined;
  const { limb } = at.note;
  if (code === 'limb off' && notes.every(({ note }) => note.limb === limb))
    return { part: { limb } };
  const grid = gridAt(phrase, at.layer);
  const { barPartials, subdivision } = grid;
  const first = partialOf(phrase, grid, at);
  const partials = notes
    .filter(({ passage }) => passage === at.passage)
    .map((due) => partialOf(phrase, grid, due));
  const last = Math.max(first, ...partials.filter((one) => one < first + barPartials));
  if (first < 0) return { excerpt: { from: first, to: Math.max(last, subdivision - 1) } };
  const from = first - remainder(first, subdivision) - subdivision;
  return { excerpt: firstPlace({ from, to: last }, roundPartials(phrase, at.layer)) };
}

/** A note's partial from bar 1 beat 1 of its passage, as it is written. */
export function partialOf({ cycle }: Phrase, { displace }: Grid, { note }: TimedNote): number {
  return note.cycle === 0 ? note.position : (note.cycle - 1) * cycle + displace + note.position - 1;
}
