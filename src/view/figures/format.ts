import { decimalText, shortText, signedText } from '../../words/words';

/** Shown where a figure is undefined: never a 0. */
const UNDEFINED = '–';
const NO_BREAK = '\u00a0';

/**
 * A number with so many decimals, a true minus sign, and no negative zero.
 *
 * @example figureText(-0.04, 1) // => '0.0'
 */
export function figureText(value: number | undefined, decimals = 0): string {
  if (value === undefined) return UNDEFINED;
  return decimalText(value, decimals);
}

/**
 * An offset with its sign: early is negative, late is positive.
 *
 * @example offsetText(3.2) // => '+3'
 */
export function offsetText(ms: number | undefined, decimals = 0): string {
  return ms === undefined ? UNDEFINED : signedText(ms, decimals);
}

/**
 * On which side of the note, for an offset as `offsetText` rounds it.
 *
 * @example sideOf(-3.2) // => 'early'
 */
export function sideOf(ms: number | undefined, decimals = 0): 'early' | 'late' | undefined {
  const sign = offsetText(ms, decimals)[0];
  return sign === '−' ? 'early' : sign === '+' ? 'late' : undefined;
}

/**
 * A share of 0 to 1 in percent; rounded down, so that 100 % means all of them.
 *
 * @example percentText(0.999) // => '99\u00a0%'
 */
export const percentText = (share: number | undefined): string =>
  share === undefined ? UNDEFINED : `${wholePercentText(share)}${NO_BREAK}%`;

/** The same for a column whose heading says that it is percent. @example wholePercentText(0.29) // => '29' */
export const wholePercentText = (share: number | undefined): string =>
  share === undefined ? UNDEFINED : String(Math.floor(share * 100 + 1e-9));

/** How many of the notes. @example countText({ count: 20, asWritten: 0.85 }) // => '17 of 20' */
export function countText(figures: { count: number; asWritten: number | undefined } | undefined) {
  if (figures?.asWritten === undefined) return UNDEFINED;
  return `${Math.round(figures.asWritten * figures.count)} of ${figures.count}`;
}

/** Minutes and seconds. @example durationText(74.6) // => '1:14' */
export function durationText(seconds: number): string {
  const whole = Math.floor(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

/** A tempo without needless decimals. @example bpmText(96.50) // => '96.5' */
export const bpmText = (bpm: number): string => shortText(bpm, 2);
