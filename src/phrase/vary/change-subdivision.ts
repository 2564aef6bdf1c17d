import type { LaidLayers } from '../layers/laid-layers';
import { withLayer, type Made } from './varied';

/**
 * The same strokes on another number of partials to the beat, as one more layer: a cycle of three lies one way
 * over triplets and another over eighths. Undefined when the number is the same.
 */
export function changeSubdivision(laid: LaidLayers, subdivision: number): Made | undefined {
  const before = laid.grid.subdivision;
  if (subdivision === before) return undefined;
  return withLayer(
    laid,
    'Subdivision',
    [{ kind: 'subdivision', subdivision }],
    `Each beat has ${subdivision} partials in place of ${before}, with the same strokes on them.`,
  );
}
