import { remainder } from '../../time/whole';
import type { Phrase } from '../model/phrase';
import { cycleSteps, withSteps } from '../model/grouping-text';
import { pinNumbers } from './pin-numbers';
import { rewrite, type Rewriting } from './rewrite';
import { made, type Made } from './varied';
import { countOf } from '../model/words';

/**
 * The cycle started `by` partials further on (negative: earlier), with all that changes say about its positions;
 * the pickup, beats of the bar and accent cycles stay where they are. By a whole cycle it is the same phrase, and
 * rotations add up.
 */
export function rotate(phrase: Phrase, by: number): Made | undefined {
  const { cycle, grouping } = phrase;
  const start = remainder(by, cycle);
  const steps = cycleSteps(grouping, cycle);
  const rewritten = rewrite(pinNumbers(phrase), rotating(cycle, by));
  return made(
    withSteps(rewritten, [...steps.slice(start), ...steps.slice(0, start)]),
    `The sticking starts ${countOf(start, 'partial')} further on in its cycle.`,
  );
}

/** What becomes of positions in a cycle that starts `by` partials further on. */
export const rotating = (cycle: number, by: number): Rewriting => ({
  positions: (position) => [remainder(position - 1 - by, cycle) + 1],
});
