import type { Change, Phrase, SwingRatio } from './phrase';

/** How a layer's partials lie in time. */
export interface Grid {
  /** Partials per beat. */
  readonly subdivision: number;
  readonly barPartials: number;
  /** Partials from bar 1 beat 1 to the first cycle's start; negative is earlier. */
  readonly displace: number;
  readonly swing: SwingRatio | undefined;
  /** 1-based number of the layer that last set the swing; 0 when the phrase came with it. */
  readonly swingLayer: number;
}

/** The grid before any layer changes it. */
export const rootGrid = (phrase: Phrase): Grid => ({
  subdivision: phrase.subdivision,
  barPartials: phrase.meter.beatsPerBar * phrase.subdivision,
  displace: 0,
  swing: phrase.swing,
  swingLayer: 0,
});

/** The grid after one change of a layer (1-based). */
export function changedGrid(grid: Grid, change: Change, layer: number): Grid {
  switch (change.kind) {
    case 'subdivision': {
      const barPartials = (grid.barPartials / grid.subdivision) * change.subdivision;
      return { ...grid, subdivision: change.subdivision, barPartials };
    }
    case 'displace':
      return { ...grid, displace: grid.displace + change.displace };
    case 'swing':
      return { ...grid, swing: change.swing, swingLayer: layer };
    default:
      return grid;
  }
}

/**
 * The grid of a layer (1-based).
 *
 * @throws RangeError when the phrase has no such layer.
 */
export function gridAt(phrase: Phrase, layer: number): Grid {
  if (!Number.isInteger(layer) || layer < 1 || layer > phrase.layers.length)
    throw new RangeError(`layer ${layer} is not one of 1 to ${phrase.layers.length}`);
  let grid = rootGrid(phrase);
  phrase.layers.slice(0, layer).forEach(({ changes }, i) => {
    for (const change of changes) grid = changedGrid(grid, change, i + 1);
  });
  return grid;
}
