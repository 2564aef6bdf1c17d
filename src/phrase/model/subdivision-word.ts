import type { Meter } from '../../time/meter';

/** Common practice, no source. Parts of the beat that the meter feels. */
const OF_A_QUARTER = {
  1: 'quarters',
  2: 'eighths',
  3: 'eighth triplets',
  4: 'sixteenths',
  5: 'quintuplets',
  6: 'sixteenth triplets',
  7: 'septuplets',
  8: 'thirty-seconds',
} as const;
const OF_A_DOTTED_QUARTER = {
  1: 'dotted quarters',
  3: 'eighths',
  6: 'sixteenths',
  12: 'thirty-seconds',
} as const;
const OF_AN_EIGHTH = {
  1: 'eighths',
  2: 'sixteenths',
  3: 'sixteenth triplets',
  4: 'thirty-seconds',
} as const;
const OF_A_SIXTEENTH = { 1: 'sixteenths', 2: 'thirty-seconds' } as const;

/**
 * What the partials are called.
 *
 * @example subdivisionWord({ count: 7, unit: 8, compound: false }, 2) // => 'sixteenths'
 */
export function subdivisionWord(
  { unit, compound }: Pick<Meter, 'count' | 'unit' | 'compound'>,
  subdivision: number,
): string {
  const names: Readonly<Record<number, string>> =
    unit === 4
      ? OF_A_QUARTER
      : compound
        ? unit === 8
          ? OF_A_DOTTED_QUARTER
          : {}
        : unit === 8
          ? OF_AN_EIGHTH
          : OF_A_SIXTEENTH;
  return names[subdivision] ?? `${subdivision} to the beat`;
}
