/** Greatest common divisor of two whole numbers, not both 0. @example gcd(12, 18) // => 6 */
export function gcd(a: number, b: number): number {
  let x = Math.abs(a);
  let y = Math.abs(b);
  while (y !== 0) [x, y] = [y, x % y];
  return x;
}

/** Least common multiple of two positive whole numbers. @example lcm(4, 6) // => 12 */
export const lcm = (a: number, b: number): number => (a / gcd(a, b)) * b;

/** What is left after whole multiples of `of` are taken off; never negative. @example remainder(-1, 4) // => 3 */
export const remainder = (value: number, of: number): number => ((value % of) + of) % of;

/** Every whole number that divides a positive one, ascending. @example divisors(12) // => [1, 2, 3, 4, 6, 12] */
export function divisors(of: number): number[] {
  const small: number[] = [];
  const large: number[] = [];
  for (let each = 1; each * each <= of; each++) {
    if (of % each !== 0) continue;
    small.push(each);
    if (each * each !== of) large.unshift(of / each);
  }
  return [...small, ...large];
}

/** The value, or the end of the range it is beyond. @example clamp(310, 30, 300) // => 300 */
export const clamp = (value: number, least: number, most: number): number =>
  Math.min(most, Math.max(least, value));
