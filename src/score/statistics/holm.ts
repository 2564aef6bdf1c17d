/**
 * P-values adjusted for being looked at together: what is below α so holds with a chance of at most α that any of it
 * is false, however they depend on each other. Holm 1979, Scand. J. Statist. 6:65-70. In the order given.
 *
 * @example holm([0.5, 0.125, 0.25]) // => [0.5, 0.375, 0.5]
 */
export function holm(pValues: readonly number[]): number[] {
  const order = pValues.map((_, i) => i).sort((a, b) => pValues[a]! - pValues[b]!);
  const adjusted = [...pValues];
  let most = 0;
  order.forEach((i, rank) => {
    most = Math.max(most, Math.min(1, (pValues.length - rank) * pValues[i]!));
    adjusted[i] = most;
  });
  return adjusted;
}
