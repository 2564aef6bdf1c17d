import { remainder } from '../../time/whole';
import type { Phrase } from '../phrase';
import { cycleSteps, groupingText } from './grouping-text';
import { pinNumbers } from './pin-numbers';
import { rewrite } from './rewrite';
import { counted, made, type Made } from './varied';

/**
 * The cycle started `by` partials further on (negative: earlier), with all that changes say about its positions;
 * the pickup, beats of the bar and accent cycles stay where they are. By a whole cycle it is the same phrase, and
 * rotations add up.
 */
export function rotate(phrase: Phrase, by: number): Made | undefined {
  const { cycle, grouping } = phrase;
  const start = remainder(by, cycle);
  const steps = cycleSteps(grouping, cycle);
  const file = rewrite(pinNumbers(phrase), {
    positions: (position) => [remainder(position - 1 - start, cycle) + 1],
  });
  const text = groupingText([...steps.slice(start), ...steps.slice(0, start)]);
  return made(
    { ...file, grouping: text, cycle },
    `The sticking starts ${counted(start, 'partial')} further on in its cycle.`,
  );
}
