import { freeHand, isHand, type Limb } from '../../phrase/model/limb';
import type { ReadNote } from './read-bars';
import type { ReadHead } from './read-head';
import type { StickingStroke } from './read-sticking';

/** A grace note with its hand. */
export interface ReadGrace {
  readonly head: ReadHead;
  readonly limb: Limb;
}

/**
 * The grace notes of one of the notes struck at once, first to sound first: as many as the row of text says, else all that
 * stand ahead of its line are those of the line's first hand. Without a hand of their own they get the one that does not strike.
 */
export function gracesOf(
  notes: readonly ReadNote[],
  limbs: readonly (Limb | undefined)[],
  i: number,
  strokes: readonly StickingStroke[],
): readonly ReadGrace[] {
  const { line } = notes[i]!;
  const columns = notes.find((note) => note.line === line && note.graces.length > 0)?.graces;
  const main = limbs[i];
  if (!columns || !main) return [];
  const own = strokes.find(({ limb }) => limb === main);
  const areSaid = strokes.some(({ graces }) => graces.length > 0);
  const firstHand = notes.findIndex(
    (note, k) => note.line === line && limbs[k] !== undefined && isHand(limbs[k]),
  );
  const count = areSaid && own ? own.graces.length : firstHand === i ? columns.length : 0;
  // Grace notes at once belong to one main note each, in the order of the row of text.
  const before = own ? strokes.slice(0, strokes.indexOf(own)) : [];
  return columns.slice(Math.max(0, columns.length - count)).map((column, k, { length }) => {
    const skip = before.filter(({ graces }) => graces.length >= length - k).length;
    const said = own?.graces[own.graces.length - length + k];
    const head =
      column.find(({ limb }) => limb !== undefined && limb === said) ??
      column[Math.min(skip, column.length - 1)]!;
    return { head, limb: said ?? handOf(head.limb) ?? freeHand(main) };
  });
}

const handOf = (limb: Limb | undefined): Limb | undefined =>
  limb && isHand(limb) ? limb : undefined;
