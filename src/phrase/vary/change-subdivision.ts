import { gridAt } from '../grid';
import type { Phrase } from '../phrase';
import { withLayer, type Varied } from './varied';

/**
 * The same strokes on another number of partials to the beat, as one more layer: a cycle of three lies one way
 * over triplets and another over eighths.
 */
export function changeSubdivision(phrase: Phrase, subdivision: number): Varied | undefined {
  const before = gridAt(phrase, phrase.layers.length).subdivision;
  return withLayer(
    phrase,
    'Subdivision',
    [{ subdivision }],
    `Each beat has ${subdivision} partials in place of ${before}, with the same strokes on them.`,
  );
}
