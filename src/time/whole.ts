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
