import type { Limb } from '../model/limb';
import type { Phrase } from '../model/phrase';
import { cycleSteps, withSteps } from '../model/grouping-text';
import { rewrite, type Rewriting } from './rewrite';
import { made, type Made } from './varied';

const otherHand = (limb: Limb): Limb => (limb === 'R' ? 'L' : limb === 'L' ? 'R' : limb);

/** What becomes of limbs whose hands are exchanged. */
export const MIRRORING: Rewriting = { limb: otherHand };

/** Right and left hand exchanged, voices and feet as they were. Twice it is the same phrase. */
export function mirror(phrase: Phrase): Made | undefined {
  const steps = cycleSteps(phrase.grouping, phrase.cycle).map((step) =>
    step.map(({ limb, graces }) => ({ limb: otherHand(limb), graces: graces.map(otherHand) })),
  );
  return made(withSteps(rewrite(phrase, MIRRORING), steps), 'Right and left hand are exchanged.');
}
