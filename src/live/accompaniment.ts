import type { PassageSpan, Plan } from '../match/plan';
import type { TimedNote } from '../match/timed-note';
import { notesOfCycles } from '../match/timed-notes';
import type { Phrase } from '../phrase/model/phrase';

/**
 * What the app plays in a cycle (1-based) of a passage: the notes of the last layer of `whole`, which lies in cycles as
 * the plan's phrase does, without those that are due.
 */
export function accompanimentOf(
  plan: Plan,
  whole: Phrase,
  passage: PassageSpan,
  cycle: number,
): TimedNote[] {
  const due = new Set(notesOfCycles(plan, passage, cycle, 1).map(placeOf));
  const ofWhole = { ...passage, layer: whole.layers.length };
  return notesOfCycles({ ...plan, phrase: whole }, ofWhole, cycle, 1).filter(
    (note) => !due.has(placeOf(note)),
  );
}

/** A limb has one main note at a time. */
const placeOf = ({ note: { cycle, position, limb, graceStep, graceOf } }: TimedNote): string =>
  `${cycle} ${position} ${limb} ${graceStep} ${graceOf ?? ''}`;
