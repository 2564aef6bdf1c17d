import type { Change, Phrase, SwingRatio } from './phrase';
import { parseSwing, straightOr } from './swing';

/** How a layer's partials lie in time. */
export interface Grid {
  /** Partials per beat. */
  readonly subdivision: number;
  readonly barPartials: number;
  /** Partials from bar 1 beat 1 to the first cycle's start; negative is earlier. */
  readonly displace: number;
  readonly swing: SwingRatio | undefined;
  /** Who changed the swing last, and from what; undefined while it is as the phrase came with it. */
  readonly swungBy: SwingStep | undefined;
}

/** A layer (1-based) that changed the swing. */
export interface SwingStep {
  readonly layer: number;
  /** As the layer met it. */
  readonly before: Pick<Grid, 'swing' | 'swungBy'>;
}

/** The grid before any layer changes it. */
export const rootGrid = (phrase: Phrase): Grid => ({
  subdivision: phrase.subdivision,
  barPartials: phrase.meter.beatsPerBar * phrase.subdivision,
  displace: 0,
  swing: phrase.swing,
  swungBy: undefined,
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
      return swungGrid(grid, parseSwing(change.swing), layer);
    default:
      return grid;
  }
}

/** A layer that leaves the swing as it met it has changed nothing. */
function swungGrid(grid: Grid, swing: SwingRatio | undefined, layer: number): Grid {
  const before = grid.swungBy?.layer === layer ? grid.swungBy.before : grid;
  if (straightOr(swing).equals(straightOr(before.swing)))
    return before === grid ? grid : { ...grid, ...before };
  return { ...grid, swing, swungBy: { layer, before: swingOf(before) } };
}

const swingOf = ({ swing, swungBy }: Pick<Grid, 'swing' | 'swungBy'>) => ({ swing, swungBy });

/**
 * The grid of a layer (1-based).
 *
 * @throws RangeError when the phrase has no such layer.
 */
export function gridAt(phrase: Phrase, layer: number = phrase.layers.length): Grid {
  if (!Number.isInteger(layer) || layer < 1 || layer > phrase.layers.length)
    throw new RangeError(`layer ${layer} is not one of 1 to ${phrase.layers.length}`);
  let grid = rootGrid(phrase);
  phrase.layers.slice(0, layer).forEach(({ changes }, i) => {
    for (const change of changes) grid = changedGrid(grid, change, i + 1);
  });
  return grid;
}
