import type { MeanOfUnits } from '../../score/cycle-means';
import { equivalent } from '../../score/statistics/equivalence';
import { tTwoSided } from '../../score/statistics/student-t';

/** One figure of a take, and how far to trust it. */
export interface Measure extends MeanOfUnits {
  /** How far it would move if what it measures were halved. */
  readonly half: number;
}

/** Whether a figure is another than it was, or shown to be much the same; open where the strokes tell neither. */
export type Difference = 'other' | 'same' | 'open';

/** How often a figure that is the same may be told as another. Chosen by counting claims (`npm run -s claims -- change`), not measured. */
const ERROR_RATE = 0.01;

/**
 * A figure of a take beside the same one of an earlier take: another where their difference is beyond chance (Welch 1947,
 * Biometrika 34:28-35, on errors from unit means) and at least half of a halving, the same where it is shown to be less than a
 * halving, either way (two one-sided tests at 5 %).
 *
 * @example differenceOf({ mean: 14, error: 1, df: 30, half: 7 }, { mean: 7, error: 1, df: 30 }) // => 'other'
 */
export function differenceOf(before: Measure, after: MeanOfUnits | undefined): Difference {
  if (!after) return 'open';
  const difference = after.mean - before.mean;
  const error = Math.hypot(before.error, after.error);
  const df = degrees(before, after);
  const isBeyondChance =
    error === 0 ? difference !== 0 : tTwoSided(difference / error, df) < ERROR_RATE;
  if (isBeyondChance && Math.abs(difference) >= before.half / 2) return 'other';
  return equivalent(difference, error, df, before.half) ? 'same' : 'open';
}

/** Of a difference of two means (Welch-Satterthwaite). */
function degrees(a: MeanOfUnits, b: MeanOfUnits): number {
  const own = ({ error, df }: MeanOfUnits) => error ** 4 / df;
  const of = own(a) + own(b);
  return of === 0 ? a.df + b.df : (a.error ** 2 + b.error ** 2) ** 2 / of;
}
