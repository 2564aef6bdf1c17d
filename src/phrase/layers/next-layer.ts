import type { Phrase } from '../model/phrase';

/**
 * The layer to practise after one (1-based): the next that is not muted; undefined when there is none.
 *
 * @example nextLayer({ layers: [{ name: 'a', changes: [] }, { name: 'b', changes: [], muted: [] }, { name: 'c', changes: [] }] }, 1) // => 3
 */
export function nextLayer({ layers }: Pick<Phrase, 'layers'>, layer: number): number | undefined {
  const at = layers.findIndex(({ muted }, i) => i >= layer && muted === undefined);
  return at < 0 ? undefined : at + 1;
}
