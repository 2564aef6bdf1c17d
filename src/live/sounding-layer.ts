import type { Upcoming } from './upcoming';

/**
 * The layer (1-based) that sounds: one that is only chosen does from its bar line on.
 *
 * @param last that of the figures there are; undefined before there are any
 * @example soundingLayer([{ layer: 4, bar: 6, hasPickup: false, atUs: 9000000 }], 4, 3) // => 3
 */
export const soundingLayer = (
  upcoming: readonly Upcoming[],
  chosen: number,
  last: number | undefined,
): number | undefined => (upcoming.some((one) => 'layer' in one) ? last : chosen);
