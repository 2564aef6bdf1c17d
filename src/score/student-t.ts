import { Z_95 } from './wilson';

/**
 * Two-sided 95 % point of Student's t, by the expansion of Abramowitz & Stegun 26.7.5 in powers of
 * 1/degrees: within 0.2 % from 3 degrees of freedom on. Degrees need not be whole (Welch).
 *
 * @throws RangeError for fewer than three degrees of freedom.
 * @example Math.round(studentT95(10) * 1000) // => 2228
 */
export function studentT95(degrees: number): number {
  if (!(degrees >= 3)) throw new RangeError(`too few degrees of freedom for t: ${degrees}`);
  const z = Z_95;
  const z2 = z * z;
  const terms = [
    (z * (z2 + 1)) / 4,
    (z * (5 * z2 * z2 + 16 * z2 + 3)) / 96,
    (z * (3 * z2 ** 3 + 19 * z2 * z2 + 17 * z2 - 15)) / 384,
    (z * (79 * z2 ** 4 + 776 * z2 ** 3 + 1482 * z2 * z2 - 1920 * z2 - 945)) / 92160,
  ];
  return terms.reduce((sum, term, i) => sum + term / degrees ** (i + 1), z);
}
