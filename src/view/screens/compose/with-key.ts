/**
 * The object with one key set, or without it where the value is undefined; the other keys in their order.
 *
 * @example withKey({ limb: 'R', nth: [1] }, 'nth', undefined) // => { limb: 'R' }
 */
export function withKey<T extends object, K extends keyof T>(
  object: T,
  key: K,
  value: T[K] | undefined,
): T {
  const others = Object.entries(object).filter(([name]) => name !== key);
  return Object.fromEntries(value === undefined ? others : [...others, [key, value]]) as T;
}
