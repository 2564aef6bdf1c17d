import { applyChange } from './apply-change';
import { rootCycle, type DraftStroke } from './draft';
import { changedGrid, rootGrid, type Grid } from '../model/grid';
import type { Change, Phrase } from '../model/phrase';

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

/** `after` sees each change after it was made, `before` the strokes it is about to meet. */
export interface LayWatch {
  before?(laid: LaidChange): void;
  after?(laid: LaidChange): void;
}

/** One cycle (1-based; 0 is the pickup) with the layers up to `layer` laid on in order, strokes by position. */
export function layOn(
  phrase: Phrase,
  layer: number,
  cycle: number,
  watch?: LayWatch,
): DraftStroke[] {
  const strokes = cycle === 0 ? [] : rootCycle(phrase);
  let grid = rootGrid(phrase);
  for (let layerIndex = 0; layerIndex < layer; layerIndex++)
    grid = layLayer(strokes, { phrase, layerIndex, cycle, grid }, watch);
  return strokes;
}

/** Which layer (0-based) is laid on which cycle, and the grid it meets. */
export interface LayerPlace {
  readonly phrase: Phrase;
  readonly layerIndex: number;
  readonly cycle: number;
  readonly grid: Grid;
}

/** Lays one layer on a cycle, in place, and returns the grid after it. */
export function layLayer(
  strokes: DraftStroke[],
  { phrase, layerIndex, cycle, grid: start }: LayerPlace,
  watch?: LayWatch,
): Grid {
  let grid = start;
  phrase.layers[layerIndex]!.changes.forEach((change, changeIndex) => {
    watch?.before?.({ change, layerIndex, changeIndex, grid, strokes, selected: 0 });
    const selected = applyChange(strokes, change, {
      layer: layerIndex + 1,
      startPartial: (cycle - 1) * phrase.cycle + grid.displace,
      isPickup: cycle === 0,
      subdivision: grid.subdivision,
      barPartials: grid.barPartials,
    });
    watch?.after?.({ change, layerIndex, changeIndex, grid, strokes, selected });
    grid = changedGrid(grid, change, layerIndex + 1);
  });
  return grid;
}
