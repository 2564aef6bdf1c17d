/** The noun for so many of them. @example plural(2, 'position') // => 'positions' */
export const plural = (count: number, noun: string): string => (count === 1 ? noun : `${noun}s`);

/** A count with its noun. @example countOf(1, 'partial') // => '1 partial' */
export const countOf = (count: number, noun: string): string => `${count} ${plural(count, noun)}`;

/** Up to twelve, as prose writes them. */
const NUMBERS = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
];

/** A number from one on, as prose writes it. @example numberWord(4) // => 'four' */
export const numberWord = (count: number): string => NUMBERS[count] ?? String(count);

/** A count with its noun, as prose writes it. @example countInWords(1, 'clean cycle') // => 'one clean cycle' */
export const countInWords = (count: number, noun: string): string =>
  `${numberWord(count)} ${plural(count, noun)}`;

/** How often. @example timesText(1) // => 'once' */
export const timesText = (count: number): string => (count === 1 ? 'once' : `${count} times`);

/** With a capital at the front. @example capital('mid tom') // => 'Mid tom' */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Names in a sentence. @example list(['tempo', 'bar', 'cycle']) // => 'tempo, bar and cycle' */
export const list = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)!}`;

/** A number above zero with so many decimals at most. @example shortText(96.50, 1) // => '96.5' */
export const shortText = (value: number, decimals: number): string =>
  String(Number(value.toFixed(decimals)));

/** A number with so many decimals, a true minus sign, and no negative zero. @example decimalText(-0.04, 1) // => '0.0' */
export function decimalText(value: number, decimals: number): string {
  const text = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(text) !== 0 ? `−${text}` : text;
}

/** The same with a plus where it is above zero. @example signedText(3.21, 1) // => '+3.2' */
export function signedText(value: number, decimals: number): string {
  const text = decimalText(value, decimals);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text;
}

/** What was thrown, in its own words. @example detailOf(new Error('disk full')) // => 'disk full' */
export const detailOf = (error: unknown): string =>
  error instanceof Error ? error.message : String(error);
