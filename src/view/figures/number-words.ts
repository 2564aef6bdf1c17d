import { plural } from '../../words/words';

const WORDS = [
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

/** A count with its noun, as prose writes it. @example countInWords(1, 'clean cycle') // => 'one clean cycle' */
export const countInWords = (count: number, noun: string): string =>
  `${WORDS[count] ?? count} ${plural(count, noun)}`;
