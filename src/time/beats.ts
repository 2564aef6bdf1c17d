import Fraction from 'fraction.js';

/** An exact position or length in beats. Bar 1 beat 1 of a phrase is 0; a pickup is negative. */
export type Beats = Fraction;

/**
 * Exact beats from a whole number, a ratio, or text.
 *
 * @example beats(7, 3).toFraction() // => '7/3'
 */
export function beats(numerator: number | string, denominator?: number): Beats {
  return denominator === undefined ? new Fraction(numerator) : new Fraction(numerator, denominator);
}

/**
 * A position as a mixed number, the way a beat is written in reports.
 *
 * @example mixedNumber(beats(7, 3)) // => '2 1/3'
 */
export function mixedNumber(value: Beats): string {
  return value.toFraction(true);
}
