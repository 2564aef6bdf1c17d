/** The numbers in a text, true minus signs and all. */
export const numbersIn = (text: string): number[] =>
  [...text.replaceAll('−', '-').matchAll(/[+-]?\d+(?:\.\d+)?/g)].map(([number]) => Number(number));
