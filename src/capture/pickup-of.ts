import type { PatternPickup } from '../phrase/decompose/target-pattern';
import { findLevels } from './level-clusters';
import { playedByFoot } from './grace-marks';
import type { StrokeInBeats } from './played-stroke';

/**
 * The strokes before bar 1 beat 1, at most a bar of `barPartials`: played once, so nothing but these
 * strokes speaks for them. One a limb and partial.
 */
export function pickupOf(
  strokes: readonly StrokeInBeats[],
  partials: Int32Array,
  barPartials: number,
): PatternPickup[] {
  const pickup: PatternPickup[] = [];
  strokes.forEach(({ voice, velocity }, i) => {
    const partialsBefore = -partials[i]!;
    if (partialsBefore < 1 || partialsBefore > barPartials) return;
    const taken = (limb: string) =>
      pickup.some((one) => one.partialsBefore === partialsBefore && one.limb === limb);
    const hand = partialsBefore % 2 === 0 ? (['R', 'L'] as const) : (['L', 'R'] as const);
    const limbs = playedByFoot(voice) ? ([voice === 'bass drum' ? 'K' : 'F'] as const) : hand;
    const limb = limbs.find((candidate) => !taken(candidate));
    const level = findLevels([velocity]).levels[0]!;
    if (limb) pickup.push({ partialsBefore, limb, voice, level });
  });
  return pickup;
}
