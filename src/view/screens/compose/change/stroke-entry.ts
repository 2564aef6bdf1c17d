import type { AddedStroke } from '../../../../phrase/model/phrase';

/** An added stroke, placed by position. */
export type StrokeEntry = Omit<AddedStroke, 'position'> & { readonly at: number };

/** @example addedEntries([{ position: 3, limb: 'F' }]) // => [{ at: 3, limb: 'F' }] */
export const addedEntries = (add: readonly AddedStroke[]): StrokeEntry[] =>
  add.map(({ position, ...stroke }) => ({ at: position, ...stroke }));

/** @example addedFrom([{ at: 3, limb: 'F' }]) // => [{ position: 3, limb: 'F' }] */
export const addedFrom = (strokes: readonly StrokeEntry[]): AddedStroke[] =>
  strokes.map(({ at, ...stroke }) => ({ position: at, ...stroke }));

/**
 * With one more stroke right after the last.
 *
 * @example oneMoreAdded([{ at: 3, limb: 'F' }]) // => [{ at: 3, limb: 'F' }, { at: 4, limb: 'F' }]
 */
export function oneMoreAdded(strokes: readonly StrokeEntry[]): StrokeEntry[] {
  const last = strokes.at(-1)!;
  return [...strokes, { ...last, at: last.at + 1 }];
}
