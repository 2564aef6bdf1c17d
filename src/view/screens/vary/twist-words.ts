import type { TwistKind } from '../../../phrase/vary/twist-settings';
import { shortText } from '../../../words/words';

/** A twist by its name, and what it does. */
export const TWIST_WORDS: Readonly<Record<TwistKind, { name: string; does: string }>> = {
  rotate: {
    name: 'Rotate the sticking',
    does: 'The cycle starts on another partial; what is on each goes along.',
  },
  displace: {
    name: 'Displace',
    does: 'The same strokes, moved as a whole against the bar.',
  },
  subdivision: {
    name: 'Change the subdivision',
    does: 'The same strokes on a finer or coarser count: groups of three over triplets fall otherwise than over eighths.',
  },
  cycle: {
    name: 'Change the cycle',
    does: 'The grouping is cut earlier, or goes on longer, before it starts again.',
  },
  'swap voices': { name: 'Swap voices', does: 'Two voices change places.' },
  mirror: { name: 'Mirror the hands', does: 'What the right hand played the left hand plays.' },
  'thin out': {
    name: 'Thin out',
    does: 'Some strokes are left out; those that stay are spread evenly.',
  },
  'double strokes': {
    name: 'Double the strokes',
    does: 'Every stroke of a hand becomes two in the same time.',
  },
  orchestrate: {
    name: 'Orchestrate by limb',
    does: 'The strokes of one limb go to another voice.',
  },
  merge: {
    name: 'Merge two phrases',
    does: 'Another phrase sounds over this one, wherever its limbs are free.',
  },
};

/** What is varied, after so many steps. @example stepName(2, 'the original') // => 'step 2' */
export const stepName = (steps: number, original: string): string =>
  steps === 0 ? original : `step ${steps}`;

/**
 * A distance as finely as it can be told apart: quarters where it is small.
 *
 * @example distanceText(17.416) // => '17.4'
 */
export const distanceText = (distance: number): string =>
  shortText(distance, distance < 10 ? 2 : distance < 100 ? 1 : 0);
