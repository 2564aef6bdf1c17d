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

/** A count as prose writes it. @example numberWord(2) // => 'two' */
export const numberWord = (count: number): string => WORDS[count] ?? String(count);

/** A count with its noun. @example counted(1, 'clean cycle') // => 'one clean cycle' */
export const counted = (count: number, noun: string): string =>
  `${numberWord(count)} ${noun}${count === 1 ? '' : 's'}`;
