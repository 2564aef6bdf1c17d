/**
 * Index of the first item of an ascending list whose value is `from` or more; the list's length when there is none.
 *
 * @example firstFrom([{ us: 0 }, { us: 10 }], ({ us }) => us, 5) // => 1
 */
export function firstFrom<T>(
  list: readonly T[],
  valueOf: (item: T) => number,
  from: number,
): number {
  let low = 0;
  let high = list.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (valueOf(list[middle]!) < from) low = middle + 1;
    else high = middle;
  }
  return low;
}
