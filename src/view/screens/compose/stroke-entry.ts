import { isHand } from '../../../phrase/model/limb';
import type { AddedStroke, PickupStroke } from '../../../phrase/model/phrase';

/** A stroke of its own: an added one, placed by position, or one of a pickup, by the partials before the downbeat. */
export type StrokeEntry = Omit<AddedStroke, 'position'> & { readonly at: number };

/** @example addedEntries([{ position: 3, limb: 'F' }]) // => [{ at: 3, limb: 'F' }] */
export const addedEntries = (add: readonly AddedStroke[]): StrokeEntry[] =>
  add.map(({ position, ...stroke }) => ({ at: position, ...stroke }));

/** @example addedFrom([{ at: 3, limb: 'F' }]) // => [{ position: 3, limb: 'F' }] */
export const addedFrom = (strokes: readonly StrokeEntry[]): AddedStroke[] =>
  strokes.map(({ at, ...stroke }) => ({ position: at, ...stroke }));

/** @example pickupEntries([{ partialsBefore: 1, limb: 'L' }]) // => [{ at: 1, limb: 'L' }] */
export const pickupEntries = (pickup: readonly PickupStroke[]): StrokeEntry[] =>
  pickup.map(({ partialsBefore, ...stroke }) => ({ at: partialsBefore, ...stroke }));

/** @example pickupFrom([{ at: 1, limb: 'L' }]) // => [{ partialsBefore: 1, limb: 'L' }] */
export const pickupFrom = (strokes: readonly StrokeEntry[]): PickupStroke[] =>
  strokes.map(({ at, ...stroke }) => ({ partialsBefore: at, ...stroke }));

/**
 * With one more stroke right after the last.
 *
 * @example oneMoreAdded([{ at: 3, limb: 'F' }]) // => [{ at: 3, limb: 'F' }, { at: 4, limb: 'F' }]
 */
export function oneMoreAdded(strokes: readonly StrokeEntry[]): StrokeEntry[] {
  const last = strokes.at(-1)!;
  return [...strokes, { ...last, at: last.at + 1 }];
}

/**
 * With one more stroke ahead of a pickup, by the other hand.
 *
 * @example oneMorePickup([{ at: 1, limb: 'L' }]) // => [{ at: 2, limb: 'R' }, { at: 1, limb: 'L' }]
 */
export function oneMorePickup(strokes: readonly StrokeEntry[]): StrokeEntry[] {
  const first = strokes.reduce((one, other) => (other.at > one.at ? other : one));
  const limb = isHand(first.limb) ? (first.limb === 'R' ? 'L' : 'R') : first.limb;
  return [{ ...first, at: first.at + 1, limb }, ...strokes];
}
