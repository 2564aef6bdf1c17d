import { select } from '../layers/apply-change';
import { gridAt } from '../model/grid';
import { layOn } from '../layers/lay-on';
import type { Phrase, Selector } from '../model/phrase';
import { noteKey } from './cycle-strokes';

/**
 * The keys of the notes of the first cycle that a selector selects, as the layers before (1-based, up to `layer`) and
 * the first `changes` changes of that layer left them: all of its changes unless told otherwise, as a change meets
 * the notes that is put after them. A grace note is told by its main note; a rest is not told.
 *
 * @throws RangeError when the phrase has no such layer.
 * @example [...noteSelection(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L R K', layers: [{ name: 'Sticking' }] }).value, 1, { limb: 'R', not: { nth: [1] } })] // => ['3/R']
 */
export function noteSelection(
  phrase: Phrase,
  layer: number,
  where: Selector,
  changes = Infinity,
): ReadonlySet<string> {
  const layers = phrase.layers
    .slice(0, layer)
    .map((one, i) => (i < layer - 1 ? one : { ...one, changes: one.changes.slice(0, changes) }));
  const before = { ...phrase, layers };
  const grid = gridAt(before, layer);
  const keys = new Set<string>();
  select(
    layOn(before, layer, 1),
    where,
    {
      layer,
      startPartial: grid.displace,
      isPickup: false,
      subdivision: grid.subdivision,
      barPartials: grid.barPartials,
    },
    (main) => {
      if (!main.silent) keys.add(noteKey(main));
    },
  );
  return keys;
}
