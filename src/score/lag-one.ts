/**
 * Correlation of each value with the next one: r1 = Σ(y_t − ȳ)(y_t+1 − ȳ) / Σ(y_t − ȳ)², as in the
 * NIST StRD univariate sets. Of intervals it says how a long one is followed: below 0 a long interval
 * is made good by a short one, above 0 the tempo wanders. Two passes, so that times far from zero
 * keep their digits.
 */

/** What successive values say about each other, in the values' unit squared. */
export interface Successive {
  /** n − 1 in the divisor. */
  readonly variance: number;
  /** Mean product of neighbours' deviations, n − 1 products. */
  readonly covariance: number;
}

/**
 * Variance and lag-one covariance, both over n − 1; undefined for fewer than three values.
 *
 * @example successive([1, 3, 2]) // => { variance: 1, covariance: -0.5 }
 */
export function successive(values: readonly number[]): Successive | undefined {
  const n = values.length;
  if (n < 3) return undefined;
  const first = values[0]!;
  // The mean from the first value on: no large number is summed.
  const mean = values.reduce((sum, value) => sum + (value - first), 0) / n;
  const deviations = values.map((value) => value - first - mean);
  let squares = 0;
  let products = 0;
  deviations.forEach((deviation, t) => {
    squares += deviation * deviation;
    if (t > 0) products += deviations[t - 1]! * deviation;
  });
  return { variance: squares / (n - 1), covariance: products / (n - 1) };
}

/**
 * Undefined for fewer than three values and for values that are all the same.
 *
 * @example lagOne([10000001, 10000003, 10000002]) // => -0.5
 */
export function lagOne(values: readonly number[]): number | undefined {
  const found = successive(values);
  return found && found.variance > 0 ? found.covariance / found.variance : undefined;
}
