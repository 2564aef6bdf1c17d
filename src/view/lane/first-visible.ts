import type { LaneCycle, LaneMark } from '../../practice/lane-feed';

/**
 * Index of the first mark at or after `timeUs`; their number when there is none.
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
