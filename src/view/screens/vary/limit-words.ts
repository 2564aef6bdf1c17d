import type { Loosened } from '../../../phrase/vary/proposals';
import { bpmText, figureText } from '../../figures/format';
import { countOf } from '../../../words/words';

/** What to loosen when nothing was found, as a sentence. */
export function loosenWords({ limit, found, figures }: Loosened): string {
  const [least, most] = figures;
  switch (limit) {
    case 'highestDifficulty':
      return `Without the limit on difficulty there would be ${countOf(found, 'variation')}, the easiest at ${figureText(least, 1)}.`;
    case 'distance':
      return `Without the limits on distance there would be ${countOf(found, 'variation')}, ${figureText(least, 2)} to ${figureText(most, 2)} away.`;
    case 'voices':
      return `With all voices allowed there would be ${countOf(found, 'variation')}.`;
    case 'limbs':
      return `With all limbs allowed there would be ${countOf(found, 'variation')}.`;
    case 'bpm':
      return `At ${bpmText(least!)} bpm there would be ${countOf(found, 'variation')}.`;
  }
}
