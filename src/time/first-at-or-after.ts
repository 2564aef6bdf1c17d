/**
 * Index of the first of `count` ascending times at or after `timeUs`; `count` when there is none.
 *
 * @example firstAtOrAfter(Float64Array.of(0, 10, 20), 3, 11) // => 2
 */
export function firstAtOrAfter(timesUs: Float64Array, count: number, timeUs: number): number {
  let low = 0;
  let high = count;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (timesUs[middle]! < timeUs) low = middle + 1;
    else high = middle;
  }
  return low;
}
