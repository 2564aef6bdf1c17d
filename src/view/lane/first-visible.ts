import type { LaneCycle, LaneMark } from '../../practice/lane-feed';

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

/**
 * The same over marks.
 *
 * @example firstMarkAtOrAfter([{ timeUs: 0 }, { timeUs: 10 }], 5) // => 1
 */
export function firstMarkAtOrAfter(
  marks: readonly Pick<LaneMark, 'timeUs'>[],
  timeUs: number,
): number {
  let low = 0;
  let high = marks.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (marks[middle]!.timeUs < timeUs) low = middle + 1;
    else high = middle;
  }
  return low;
}

/**
 * The first cycle that ends after `timeUs`.
 *
 * @example firstCycleEndingAfter([{ endUs: 10 }, { endUs: 20 }], 10) // => 1
 */
export function firstCycleEndingAfter(
  cycles: readonly Pick<LaneCycle, 'endUs'>[],
  timeUs: number,
): number {
  let low = 0;
  let high = cycles.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (cycles[middle]!.endUs <= timeUs) low = middle + 1;
    else high = middle;
  }
  return low;
}
