import { median } from 'simple-statistics';

/**
 * Contrast: how far the accents stand above the ghosts, in dB. Velocity becomes level by the General
 * MIDI volume law, L = 40·log10(v/127) dB (GM Level 1 Developer Guidelines; SoundFont 2.04 §8.4.1
 * uses the same curve). MIDI itself fixes no law and modules differ by tens of dB (Dannenberg 2006,
 * Proc. ICMC, 193-196), so the figure compares a player with the player, not with a sound meter.
 *
 * Contrast is the median level of the accents less the median level of the ghosts: one rim shot or
 * one stray ghost does not move it. It depends on velocity ratios only, so a pad's gain cancels.
 * Negative when the accents lie under the ghosts.
 */

/**
 * Level of a velocity (1 to 127) in dB under full velocity.
 *
 * @example levelDb(127) // => 0
 */
export const levelDb = (velocity: number): number => 40 * Math.log10(velocity / 127);

/**
 * Contrast in dB of two groups of velocities; undefined when either is empty.
 *
 * @example contrastDb([100, 127, 127], [127]) // => 0
 */
export const contrastDb = (
  accents: readonly number[],
  ghosts: readonly number[],
): number | undefined =>
  accents.length === 0 || ghosts.length === 0
    ? undefined
    : median(accents.map(levelDb)) - median(ghosts.map(levelDb));

/**
 * How often each velocity (0 to 127) came.
 *
 * @example velocityCounts([100, 127, 127])[127] // => 2
 */
export function velocityCounts(velocities: readonly number[]): Uint32Array {
  const counts = new Uint32Array(128);
  for (const velocity of velocities) counts[velocity]!++;
  return counts;
}

/**
 * The same of two groups that are counted by velocity.
 *
 * @example contrastOfCounts(velocityCounts([100, 127, 127]), velocityCounts([127])) // => 0
 */
export function contrastOfCounts(accents: Uint32Array, ghosts: Uint32Array): number | undefined {
  const [louder, softer] = [medianDb(accents), medianDb(ghosts)];
  return louder === undefined || softer === undefined ? undefined : louder - softer;
}

function medianDb(counts: Uint32Array): number | undefined {
  let of = 0;
  for (const count of counts) of += count;
  if (of === 0) return undefined;
  /** The velocity with so many below it in order. */
  const at = (rank: number) => {
    let velocity = 0;
    for (let below = counts[0]!; below <= rank; below += counts[velocity]!) velocity++;
    return velocity;
  };
  return (levelDb(at(Math.floor((of - 1) / 2))) + levelDb(at(Math.floor(of / 2)))) / 2;
}
