/**
 * Items by what they have in common, in the order of their first ones; those without a key are left out.
 *
 * @example [...groupBy([3, 4, 5], (n) => n % 2 === 0 ? 'even' : 'odd')] // => [['odd', [3, 5]], ['even', [4]]]
 */
export function groupBy<T, Key>(
  items: Iterable<T>,
  keyOf: (item: T) => Key | undefined,
): Map<Key, T[]> {
  const groups = new Map<Key, T[]>();
  for (const item of items) {
    const key = keyOf(item);
    if (key === undefined) continue;
    const group = groups.get(key);
    if (group) group.push(item);
    else groups.set(key, [item]);
  }
  return groups;
}
