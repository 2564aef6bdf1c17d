import Fraction from 'fraction.js';

/** An exact position or length in beats. Bar 1 beat 1 of a phrase is 0; a pickup is negative. */
export type Beats = Fraction;

/**
 * Exact beats: a whole number or a ratio of whole numbers.
 *
 * @example beats(7, 3).toFraction() // => '7/3'
 */
export const beats = (numerator: number, denominator = 1): Beats =>
  new Fraction(numerator, denominator);

/**
 * Exact beats from text: "2", "5/3", "2 1/3". Undefined when it is none of these.
 *
 * @example parseBeats('2 1/3')?.toFraction() // => '7/3'
 */
export function parseBeats(text: string): Beats | undefined {
  const match = /^(-?\d{1,9})(?: (\d{1,6})\/(\d{1,6})|\/(\d{1,6}))?$/.exec(text.trim());
  if (!match) return undefined;
  const whole = Number(match[1]);
  if (match[4] !== undefined)
    return Number(match[4]) > 0 ? new Fraction(whole, Number(match[4])) : undefined;
  if (match[2] === undefined) return new Fraction(whole);
  if (!(Number(match[3]) > 0)) return undefined;
  const part = new Fraction(Number(match[2]), Number(match[3]));
  return text.trim().startsWith('-') ? new Fraction(whole).sub(part) : part.add(whole);
}

/**
 * A position as a mixed number, the way a beat is written in reports.
 *
 * @example mixedNumber(beats(7, 3)) // => '2 1/3'
 */
export function mixedNumber(value: Beats): string {
  return value.toFraction(true);
}
