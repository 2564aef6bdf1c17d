import { LIMBS, type Limb } from '../model/limb';
import type { Selector } from '../model/phrase';
import { noteKey } from './cycle-strokes';

interface Place {
  readonly position: number;
  readonly limb: Limb;
}

/**
 * A selector that selects the main notes with these keys among those of the cycle and no others: by position, with the
 * limb where a unison makes it necessary; undefined for none. An empty where is all of them.
 *
 * @example selectorOfNotes([{ position: 1, limb: 'R' }, { position: 1, limb: 'K' }, { position: 2, limb: 'L' }], new Set(['1/R', '2/L'])) // => { any: [{ positions: [2] }, { limb: 'R', positions: [1] }] }
 */
export function selectorOfNotes(
  notes: readonly Place[],
  keys: ReadonlySet<string>,
): Selector | undefined {
  const chosen = notes.filter((note) => keys.has(noteKey(note)));
  if (chosen.length === 0) return undefined;
  if (chosen.length === notes.length) return {};
  const left = new Set(notes.filter((note) => !keys.has(noteKey(note))).map((n) => n.position));
  const positions = (some: readonly Place[]) => [...new Set(some.map((note) => note.position))];
  if (chosen.every(({ position }) => !left.has(position))) return { positions: positions(chosen) };
  const limb = chosen[0]!.limb;
  if (chosen.every((note) => note.limb === limb)) return { limb, positions: positions(chosen) };
  const plain = chosen.filter(({ position }) => !left.has(position));
  const members = LIMBS.flatMap((each): Selector[] => {
    const some = chosen.filter((note) => note.limb === each && left.has(note.position));
    return some.length > 0 ? [{ limb: each, positions: positions(some) }] : [];
  });
  return { any: [...(plain.length > 0 ? [{ positions: positions(plain) }] : []), ...members] };
}
