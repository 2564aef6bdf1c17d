import type { AddedFile, PickupFile } from '../../../phrase/phrase-file';

/** A stroke of its own: an added one, placed by position, or one of a pickup, by the partials before the downbeat. */
export type PlacedStroke = Omit<AddedFile, 'position'> & { readonly at: number };

/** @example placedAdded([{ position: 3, limb: 'F' }]) // => [{ at: 3, limb: 'F' }] */
export const placedAdded = (add: readonly AddedFile[]): PlacedStroke[] =>
  add.map(({ position, ...stroke }) => ({ at: position, ...stroke }));

/** @example addedFrom([{ at: 3, limb: 'F' }]) // => [{ position: 3, limb: 'F' }] */
export const addedFrom = (strokes: readonly PlacedStroke[]): AddedFile[] =>
  strokes.map(({ at, ...stroke }) => ({ position: at, ...stroke }));

/** @example placedPickup([{ partialsBefore: 1, limb: 'L' }]) // => [{ at: 1, limb: 'L' }] */
export const placedPickup = (pickup: readonly PickupFile[]): PlacedStroke[] =>
  pickup.map(({ partialsBefore, ...stroke }) => ({ at: partialsBefore, ...stroke }));

/** @example pickupFrom([{ at: 1, limb: 'L' }]) // => [{ partialsBefore: 1, limb: 'L' }] */
export const pickupFrom = (strokes: readonly PlacedStroke[]): PickupFile[] =>
  strokes.map(({ at, ...stroke }) => ({ partialsBefore: at, ...stroke }));
