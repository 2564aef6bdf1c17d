/** A seeded source of chance. */
export interface Chance {
  /** The next number of the generator, 0 to 2^32 - 1. */
  readonly next: () => number;
  /** Evenly spread, 0 up to but not including 1. */
  readonly share: () => number;
  /** Normally distributed, mean 0 and standard deviation 1. */
  readonly normal: () => number;
}

/**
 * Chance from a seed: the mulberry32 generator (Tommy Ettinger, 2017, public domain, CC0), one 32-bit word
 * of state; `normal` by Box and Muller (Ann. Math. Stat. 29, 1958), the cosine half, so that every
 * call takes two numbers.
 *
 * @example chance(1985).next() // => 3527837133
 */
export function chance(seed: number): Chance {
  let state = seed >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let z = Math.imul(state ^ (state >>> 15), state | 1);
    z ^= z + Math.imul(z ^ (z >>> 7), z | 61);
    return (z ^ (z >>> 14)) >>> 0;
  };
  const share = () => next() / 2 ** 32;
  const normal = () => {
    const radius = Math.sqrt(-2 * Math.log(1 - share()));
    return radius * Math.cos(2 * Math.PI * share());
  };
  return { next, share, normal };
}
