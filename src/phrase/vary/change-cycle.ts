import type { Phrase } from '../model/phrase';
import { pinNumbers } from './pin-numbers';
import { rewrite, type Rewriting } from './rewrite';
import { made, type Made } from './varied';
import { countOf } from '../model/words';

/**
 * The same grouping in a cycle of so many partials: cut earlier, or started over until the new end. Changes keep
 * their positions; those beyond the end go. Strokes that are numbered keep their places.
 */
export function changeCycle(phrase: Phrase, cycle: number): Made | undefined {
  return made(
    { ...rewrite(pinNumbers(phrase), cuttingAt(cycle)), cycle },
    `The cycle has ${countOf(cycle, 'partial')} in place of ${phrase.cycle}.`,
  );
}

/** What becomes of positions in a cycle of so many partials. */
export const cuttingAt = (cycle: number): Rewriting => ({
  positions: (position) => (position <= cycle ? [position] : []),
});
