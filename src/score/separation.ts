/**
 * Separation: the probability that a random accent is louder than a random ghost, ties counting one
 * half. It is the area under the ROC curve, the Mann-Whitney U over n1·n2 (Hanley & McNeil 1982,
 * Radiology 143:29-36). Computed from mid-ranks, O(n log n): U = R1 - n1(n1 + 1)/2, R1 the rank sum
 * of the louder group. Needs no scale, so a pad's gain or velocity curve does not change it, and
 * accents played under the ghosts fall below one half instead of being fitted away.
 */

/**
 * From 0 (every accent under every ghost) to 1; undefined when either group is empty.
 *
 * @example separation([70, 90, 80, 60], [50, 65, 40, 70]) // => 0.84375
 */
export function separation(
  louder: readonly number[],
  softer: readonly number[],
): number | undefined {
  const n1 = louder.length;
  const n2 = softer.length;
  if (n1 === 0 || n2 === 0) return undefined;
  const all = [
    ...louder.map((value) => ({ value, first: true })),
    ...softer.map((value) => ({ value, first: false })),
  ].sort((a, b) => a.value - b.value);
  let rankSum = 0;
  for (let start = 0; start < all.length;) {
    let end = start;
    let firsts = 0;
    while (end < all.length && all[end]!.value === all[start]!.value) {
      if (all[end]!.first) firsts++;
      end++;
    }
    const midRank = (start + 1 + end) / 2;
    rankSum += firsts * midRank;
    start = end;
  }
  return (rankSum - (n1 * (n1 + 1)) / 2) / (n1 * n2);
}
