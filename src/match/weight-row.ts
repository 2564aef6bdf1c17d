import { WEIGHT_WIDTH } from './pair-weight';

/** Compares two rows of weights entry by entry; negative when the first is the smaller. */
export function compareRows(a: Float64Array, at: number, b: Float64Array, bt: number): number {
  for (let k = 0; k < WEIGHT_WIDTH; k++) {
    const difference = a[at + k]! - b[bt + k]!;
    if (difference !== 0) return difference;
  }
  return 0;
}

/** Takes one row off another. */
export function subtractRow(from: Float64Array, at: number, what: Float64Array, wt: number): void {
  for (let k = 0; k < WEIGHT_WIDTH; k++) from[at + k]! -= what[wt + k]!;
}
