import { select } from '../layers/apply-change';
import type { LayerStack } from '../layers/layer-stack';
import type { Selector } from '../model/phrase';
import { noteKey } from './cycle-strokes';

/**
 * The keys of the notes of the first cycle that a selector selects, as the layers below and the first `changeCount`
 * changes of the last left them: all of its changes unless told otherwise, as a change meets the notes that is put
 * after them. A grace note is told by its main note; a rest is not told.
 *
 * @example [...noteSelection(layerStack(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L R K', layers: [{ name: 'Sticking' }] }).value), { limb: 'R', not: { nth: [1] } })] // => ['3/R']
 */
export function noteSelection(
  stack: LayerStack,
  where: Selector,
  changeCount = stack.grids.length - 1,
): ReadonlySet<string> {
  return keysIn(stack, where, changeCount, 1);
}

/**
 * The keys of the notes of the pickup that a selector selects as well, each by minus the partials before the downbeat:
 * a pickup is reached by every key but those that count within the cycle.
 */
export const pickupSelection = (
  stack: LayerStack,
  where: Selector,
  changeCount = stack.grids.length - 1,
): ReadonlySet<string> => keysIn(stack, where, changeCount, 0);

/** Of a cycle, or of the pickup, which is cycle 0. */
function keysIn(
  stack: LayerStack,
  where: Selector,
  changeCount: number,
  cycle: 0 | 1,
): ReadonlySet<string> {
  const { displace, subdivision, barPartials } = stack.grids[changeCount]!;
  const isPickup = cycle === 0;
  const place = {
    layer: stack.phrase.layers.length,
    startPartial: isPickup ? 0 : displace,
    isPickup,
    subdivision,
    barPartials,
  };
  const keys = new Set<string>();
  select(stack.strokesAfter(changeCount, cycle), where, place, (main) => {
    if (!main.silent) keys.add(noteKey(main));
  });
  return keys;
}
