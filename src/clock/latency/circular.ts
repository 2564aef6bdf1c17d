/**
 * Offsets on a circle: for strokes placed against a repeating period (the beat, the cycle), where an
 * arithmetic mean of "just before" and "just after" would land on the far side.
 * C = mean cos θ, S = mean sin θ, θ = 2π·offset/period; direction atan2(S, C), resultant R = √(C²+S²).
 * Mardia & Jupp 2000, Directional Statistics; Berens 2009, J. Stat. Softw. 31(10).
 */
export interface Circular {
  /** Mean offset, from -period/2 to period/2, in the offsets' unit; early is negative. */
  readonly mean: number;
  /** 0 (spread all around) to 1 (all at one place). */
  readonly resultant: number;
  /** Standard deviation (period/2π)·√(-2 ln R), in the offsets' unit. */
  readonly spread: number;
}

/** Below this the offsets cancel and rounding alone would choose a direction. Chosen, not measured. */
const NO_DIRECTION = 1e-12;

/**
 * Undefined for no offsets, and for offsets that cancel so that no direction is meant.
 *
 * @throws RangeError when the period is not positive.
 * @example circular([0, 500, 1000], 500)?.mean // => 0
 */
export function circular(offsets: readonly number[], period: number): Circular | undefined {
  if (!(period > 0)) throw new RangeError(`a period must be positive, got ${period}`);
  if (offsets.length === 0) return undefined;
  const perUnit = (2 * Math.PI) / period;
  let c = 0;
  let s = 0;
  for (const offset of offsets) {
    const angle = (offset % period) * perUnit;
    c += Math.cos(angle);
    s += Math.sin(angle);
  }
  const resultant = Math.min(1, Math.hypot(c, s) / offsets.length);
  if (resultant < NO_DIRECTION) return undefined;
  return {
    mean: Math.atan2(s, c) / perUnit,
    resultant,
    spread: Math.sqrt(-2 * Math.log(resultant)) / perUnit,
  };
}
