import { MAX_NAME } from './phrase-file';

/** Endings where there may be nothing to tell apart. @example [another(1), another(2)] // => ['', ', 2'] */
export const another = (number: number): string => (number === 1 ? '' : `, ${number}`);

/**
 * The first title that nothing has yet of those that a title makes with endings; `endingOf` gives each number from 1
 * on an ending of its own. The title is cut where it would be too long.
 *
 * @example freeTitle('Slip', (number) => `, ${number}`, ['Slip, 1']) // => 'Slip, 2'
 */
export function freeTitle(
  title: string,
  endingOf: (number: number) => string,
  taken: readonly string[],
): string {
  for (let number = 1; ; number++) {
    const ending = endingOf(number);
    const next = title.slice(0, MAX_NAME - ending.length) + ending;
    if (!taken.includes(next)) return next;
  }
}
