import { incompleteBeta } from './incomplete-beta';

/**
 * Student's t (Student 1908, Biometrika 6:1-25). Degrees of freedom need not be whole (Welch 1947, Biometrika
 * 34:28-35).
 */

/**
 * Chance of a t at least so far from 0 on either side where there is nothing: 0 to 1.
 *
 * @throws RangeError for degrees that are not above 0.
 * @example tTwoSided(0, 10) // => 1
 */
export function tTwoSided(t: number, degrees: number): number {
  if (!(degrees > 0)) throw new RangeError(`too few degrees of freedom for t: ${degrees}`);
  return incompleteBeta(degrees / (degrees + t * t), degrees / 2, 1 / 2);
}

/**
 * The t below which a share of the distribution lies.
 *
 * @throws RangeError for a share that is not between 0 and 1, and for degrees that are not above 0.
 * @example tQuantile(0.975, 10).toFixed(6) // => '2.228139'
 */
export function tQuantile(share: number, degrees: number): number {
  if (!(share > 0 && share < 1)) throw new RangeError(`t has no quantile at ${share}`);
  const outside = 2 * Math.min(share, 1 - share);
  let low = 0;
  let high = 1;
  while (tTwoSided(high, degrees) > outside) {
    low = high;
    high *= 2;
  }
  for (;;) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) break;
    if (tTwoSided(middle, degrees) > outside) low = middle;
    else high = middle;
  }
  return share < 1 / 2 ? -high : share > 1 / 2 ? high : 0;
}
