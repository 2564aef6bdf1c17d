import { medianAbsoluteDeviation, sampleStandardDeviation } from 'simple-statistics';

/**
 * How far values scatter. The library's standard deviation is two-pass and its sums compensated, so
 * it keeps the NIST StRD sets (NumAcc4 to 6e-10); nothing of our own is needed here.
 */

/** 1/Φ⁻¹(3/4): makes the median absolute deviation of a normal sample estimate its standard deviation. */
export const MAD_TO_SPREAD = 1.482602218505602;

/**
 * Standard deviation with n - 1, in the values' unit. One value has none.
 *
 * @example spread([8, 10, 12]) // => 2
 */
export const spread = (values: readonly number[]): number | undefined =>
  values.length < 2 ? undefined : sampleStandardDeviation(values);

/**
 * Scaled median absolute deviation, in the values' unit: the spread that a few wild strokes do not
 * move (Hampel 1974, JASA 69:383-393). Zero when more than half the values agree; one value has none.
 *
 * @example robustSpread([1, 1, 2, 2, 4, 6, 9]) // => 1.482602218505602
 */
export const robustSpread = (values: readonly number[]): number | undefined =>
  values.length < 2 ? undefined : MAD_TO_SPREAD * medianAbsoluteDeviation(values);
