/**
 * Where a handful of noisy values lies, robustly: the median of the means of all pairs (Hodges &
 * Lehmann 1963, Ann. Math. Stat. 34:598-611). Nearly as sharp as the mean on even noise (95 % as
 * efficient), and up to 29 % wild values cannot carry it away. Its interval comes from the Wilcoxon signed-rank
 * distribution, exact for values that scatter evenly to both sides, whatever their distribution
 * (Hollander & Wolfe, Nonparametric Statistical Methods, 3.3). O(n²).
 */
export interface Location {
  readonly location: number;
  /** At least 95 %. */
  readonly lower: number;
  readonly upper: number;
}

/** Fewer values have no 95 % interval: the whole range covers less. */
export const FEWEST_VALUES = 6;

/**
 * Undefined for fewer than six values.
 *
 * @example hodgesLehmann([1, 2, 3, 4, 5, 6]) // => { location: 3.5, lower: 1, upper: 6 }
 */
export function hodgesLehmann(values: readonly number[]): Location | undefined {
  const n = values.length;
  if (n < FEWEST_VALUES) return undefined;
  const means = new Float64Array((n * (n + 1)) / 2);
  let count = 0;
  for (let i = 0; i < n; i++)
    for (let j = i; j < n; j++) means[count++] = (values[i]! + values[j]!) / 2;
  means.sort();
  const outside = signedRankCritical(n);
  return {
    location: (means[(count - 1) >> 1]! + means[count >> 1]!) / 2,
    lower: means[outside]!,
    upper: means[count - 1 - outside]!,
  };
}

/** Above this the normal approximation is as good. */
const EXACT_UP_TO = 60;

/**
 * Largest c with P(T+ ≤ c) ≤ 0.025, T+ the signed-rank sum of n values about their centre; −1 for
 * fewer than six.
 *
 * @example signedRankCritical(10) // => 8
 */
export function signedRankCritical(n: number): number {
  const sums = (n * (n + 1)) / 2;
  if (n > EXACT_UP_TO) {
    const deviation = Math.sqrt((sums * (2 * n + 1)) / 12);
    return Math.floor(sums / 2 - 1.959964 * deviation - 0.5);
  }
  const share = new Float64Array(sums + 1);
  share[0] = 1;
  for (let rank = 1; rank <= n; rank++)
    for (let sum = sums; sum >= 0; sum--)
      share[sum] = (share[sum]! + (sum >= rank ? share[sum - rank]! : 0)) / 2;
  let below = 0;
  let c = -1;
  while (below + share[c + 1]! <= 0.025) below += share[++c]!;
  return c;
}
