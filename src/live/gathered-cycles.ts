import { realignment } from '../phrase/layers/realignment';
import type { LiveTimeline } from './live-timeline';

/** Fewer notes say little, and figures on them change faster than they are read. Chosen, not measured. */
export const FEWEST_NOTES = 12;

/** Whole cycles, one after the other, whose figures are told together; 0-based, of all laid out. */
export interface CycleRange {
  readonly first: number;
  readonly last: number;
}

/**
 * The last cycles to be told together, of which cycle `at` may be the last: as few whole ones of a passage as make a
 * bar and FEWEST_NOTES, counted from the passage's beginning; undefined before there are so many.
 */
export function gatheredCycles(timeline: LiveTimeline, at: number): CycleRange | undefined {
  const { cycles, plan } = timeline;
  let gathered: CycleRange | undefined;
  let first = 0;
  let fewest = 0;
  for (let last = 0; last <= at; last++) {
    const { passage } = cycles[last]!;
    if (last === 0 || passage !== cycles[last - 1]!.passage) {
      first = last;
      const { cycles: ofThem, bars } = realignment(plan.phrase, plan.passages[passage]!.layer);
      fewest = Math.ceil(ofThem / bars);
    }
    const notes = timeline.endNote(last) - cycles[first]!.firstNote;
    if (last - first + 1 < fewest || notes < FEWEST_NOTES) continue;
    gathered = { first, last };
    first = last + 1;
  }
  return gathered;
}
