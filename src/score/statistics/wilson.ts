/**
 * Wilson score interval of a share k/n:
 * centre (p + z²/2n) / (1 + z²/n), half-width z·√(p(1-p)/n + z²/4n²) / (1 + z²/n), p = k/n.
 * Wilson 1927, JASA 22:209-212; recommended for small n by Brown, Cai & DasGupta 2001, Statist.
 * Sci. 16:101-133, where the plain normal interval is erratic.
 */

/** Two-sided 95 %: Φ⁻¹(0.975). */
export const Z_95 = 1.959964;

export interface Interval {
  readonly lower: number;
  readonly upper: number;
}

/**
 * Both bounds, shares from 0 to 1; undefined for n = 0.
 *
 * @throws RangeError when k is not between 0 and n.
 * @example wilson(0, 20)?.lower // => 0
 */
export function wilson(k: number, n: number, z = Z_95): Interval | undefined {
  if (!(k >= 0 && k <= n)) throw new RangeError(`${k} of ${n} is no share`);
  if (n === 0) return undefined;
  const p = k / n;
  const z2 = z * z;
  const scale = 1 + z2 / n;
  const centre = (p + z2 / (2 * n)) / scale;
  const half = (z * Math.sqrt((p * (1 - p)) / n + z2 / (4 * n * n))) / scale;
  // The ends are exact, where rounding would leave a bound a hair outside or inside.
  return { lower: k === 0 ? 0 : centre - half, upper: k === n ? 1 : centre + half };
}
