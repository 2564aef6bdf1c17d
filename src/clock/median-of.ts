/** Middle value; the mean of the middle two of an even number. @example medianOf([3, 1, 2, 10]) // => 2.5 */
export function medianOf(values: readonly number[]): number | undefined {
  if (values.length === 0) return undefined;
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  const upper = sorted[middle]!;
  return sorted.length % 2 === 1 ? upper : (sorted[middle - 1]! + upper) / 2;
}
