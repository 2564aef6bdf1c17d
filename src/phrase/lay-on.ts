import { applyChange } from './apply-change';
import { rootCycle, type DraftStroke } from './draft';
import { changedGrid, rootGrid, type Grid } from './grid';
import type { Change, Phrase } from './phrase';

/** A change as it was laid on one cycle. */
export interface LaidChange {
  readonly change: Change;
  /** 0-based places in the phrase's lists. */
  readonly layerIndex: number;
  readonly changeIndex: number;
  /** The grid the change met. */
  readonly grid: Grid;
  readonly strokes: readonly DraftStroke[];
  /** Notes it selected or made in this cycle. */
  readonly selected: number;
}

/**
 * One cycle (1-based; 0 is the pickup) with the layers up to `layer` laid on in order, strokes by
 * position. `watch` sees each change after it was made, `before` the strokes it is about to meet.
 */
export function layOn(
  phrase: Phrase,
  layer: number,
  cycle: number,
  watch?: { before(laid: LaidChange): void; after(laid: LaidChange): void },
): DraftStroke[] {
  const isPickup = cycle === 0;
  const strokes = isPickup ? [] : rootCycle(phrase);
  let grid = rootGrid(phrase);
  for (let layerIndex = 0; layerIndex < layer; layerIndex++) {
    const changes = phrase.layers[layerIndex]!.changes;
    for (let changeIndex = 0; changeIndex < changes.length; changeIndex++) {
      const change = changes[changeIndex]!;
      const laid = { change, layerIndex, changeIndex, grid, strokes, selected: 0 };
      watch?.before(laid);
      const selected = applyChange(strokes, change, {
        layer: layerIndex + 1,
        startPartial: (cycle - 1) * phrase.cycle + grid.displace,
        isPickup,
        subdivision: grid.subdivision,
        barPartials: grid.barPartials,
      });
      watch?.after({ ...laid, selected });
      grid = changedGrid(grid, change, layerIndex + 1);
    }
  }
  return strokes;
}
