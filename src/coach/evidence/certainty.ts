import type { TimedNote } from '../../match/timed-note';
import type { MeanOfUnits } from '../../score/cycle-means';
import { tQuantile } from '../../score/statistics/student-t';
import type { Interval } from '../../score/statistics/wilson';

/** What a mean rests on, and how far it is sure. */
export interface Certainty {
  readonly strokes: number;
  /** Bars in which they lie. */
  readonly bars: number;
  /** Of 95 % certainty, in the mean's unit. */
  readonly interval: Interval;
}

/**
 * The certainty of a mean over units: Student's t interval about it.
 *
 * @param notes those whose strokes it is the mean of
 */
export function certaintyOf(
  notes: readonly TimedNote[],
  { mean, error, df }: MeanOfUnits,
): Certainty {
  const half = tQuantile(0.975, df) * error;
  return {
    strokes: notes.length,
    bars: new Set(notes.map(({ note }) => note.bar)).size,
    interval: { lower: mean - half, upper: mean + half },
  };
}
