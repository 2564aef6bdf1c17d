import { firstFrom } from '../time/first-from';

/**
 * The items of a list in time order whose time lies from `fromUs` up to but not including `toUs`.
 *
 * @example between([1, 2, 3, 4], (us) => us, 2, 4) // => [2, 3]
 */
export function between<T>(
  list: readonly T[],
  timeUs: (item: T) => number,
  fromUs: number,
  toUs: number,
): T[] {
  return list.slice(firstFrom(list, timeUs, fromUs), firstFrom(list, timeUs, toUs));
}
