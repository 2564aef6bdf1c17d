import { inOtherHand } from '../model/limb';
import type { PickupStroke } from '../model/phrase';

/** How many partials before beat 1 a pickup begins. @example pickupLength([{ partialsBefore: 2, limb: 'R' }]) // => 2 */
export const pickupLength = (pickup: readonly PickupStroke[]): number =>
  Math.max(1, ...pickup.map(({ partialsBefore }) => partialsBefore));

/** The first stroke first. */
export const sortedPickup = (pickup: readonly PickupStroke[]): PickupStroke[] =>
  pickup.toSorted((a, b) => b.partialsBefore - a.partialsBefore);

/**
 * A pickup that begins so many partials before beat 1: a longer one has a stroke on each partial ahead, hand to hand;
 * of a shorter one is left what it still has room for.
 *
 * @example pickupOfLength([{ partialsBefore: 1, limb: 'L' }], 3) // => [{ partialsBefore: 3, limb: 'L' }, { partialsBefore: 2, limb: 'R' }, { partialsBefore: 1, limb: 'L' }]
 */
export function pickupOfLength(pickup: readonly PickupStroke[], partials: number): PickupStroke[] {
  const kept = sortedPickup(pickup.filter(({ partialsBefore }) => partialsBefore <= partials));
  const [first] = kept.length > 0 ? kept : sortedPickup(pickup).slice(-1);
  const pattern: PickupStroke = first ?? { partialsBefore: 0, limb: 'R' };
  const from = kept.length > 0 ? pattern.partialsBefore + 1 : 1;
  let limb = pattern.limb;
  const ahead: PickupStroke[] = [];
  for (let partialsBefore = from; partialsBefore <= partials; partialsBefore++) {
    limb = kept.length > 0 || partialsBefore > from ? inOtherHand(limb) : limb;
    ahead.unshift({ ...pattern, partialsBefore, limb });
  }
  return [...ahead, ...kept];
}

/**
 * With a rest where a stroke was, or the pickup shorter where it began with that stroke; its last stroke stays.
 *
 * @example restInPickup([{ partialsBefore: 2, limb: 'R' }, { partialsBefore: 1, limb: 'L' }], { partialsBefore: 2, limb: 'R' }) // => [{ partialsBefore: 1, limb: 'L' }]
 */
export function restInPickup(
  pickup: readonly PickupStroke[],
  { partialsBefore, limb }: PickupStroke,
): PickupStroke[] {
  const left = pickup.filter((one) => one.partialsBefore !== partialsBefore || one.limb !== limb);
  return left.length > 0 ? left : [...pickup];
}
