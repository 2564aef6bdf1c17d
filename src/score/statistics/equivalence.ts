import { tQuantile } from './student-t';

/** Chance of calling even what is just as far off as the bound. Usual, chosen, not measured. */
export const CALLED_EVEN_WRONGLY = 0.05;

/**
 * Whether a mean is shown to lie within ±bound: two one-sided tests at 5 % (TOST; Schuirmann 1987, J. Pharmacokinet.
 * Biopharm. 15:657-680), the same as the 90 % interval lying inside. Nothing standing out is no such evidence.
 *
 * @param error standard error of the mean, in its unit
 * @param df degrees of freedom of the error
 * @example [6, 5].map((bound) => equivalent(1, 2.5, 30, bound)) // => [true, false]
 */
export const equivalent = (mean: number, error: number, df: number, bound: number): boolean =>
  Math.abs(mean) + tQuantile(1 - CALLED_EVEN_WRONGLY, df) * error < bound;
