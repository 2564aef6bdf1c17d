import type { PatternNote, PatternPickup, TargetPattern } from '../phrase/decompose/target-pattern';
import { freeHand, inOtherHand, isHand, type Limb } from '../phrase/model/limb';
import type { Corrections, HandOfStroke } from './corrections';

export type HandCorrections = Pick<Corrections, 'leads' | 'handsSwapped' | 'hands'>;

/** Strokes of a cycle and its pickup with the hands that the player says. */
export interface PatternHands {
  readonly notes: readonly PatternNote[];
  readonly pickup: readonly PatternPickup[];
  /** So many strokes of the cycle have the hand that was said of them. */
  readonly said: number;
}

/**
 * A pattern with its hands swapped, and then each stroke in the hand that was said of it: what else a hand would strike at
 * once goes to the other. Only limbs change, grace notes to the hand that is free; what was said of a cycle counted
 * otherwise, or of a stroke that is not there, is left alone.
 */
export function correctHands(
  { notes, pickup, subdivision, cyclePartials }: TargetPattern,
  { handsSwapped, hands }: HandCorrections,
): PatternHands {
  const strokes = strokesSaid(hands, { subdivision, cyclePartials });
  const swap = (limb: Limb) => (handsSwapped ? inOtherHand(limb) : limb);
  const ofCycle = strokes.filter(({ partial }) => partial >= 0);
  const ofPickup = strokes.filter(({ partial }) => partial < 0);
  const placed = notes.map((note) => ({ ...note, limb: swap(note.limb) }));
  const ahead = pickup.map(({ partialsBefore, voice, limb }) => ({
    ...{ partial: -partialsBefore, voice },
    limb: swap(limb),
  }));
  const said = ofCycle.filter((stroke) => say(placed, stroke)).length;
  for (const stroke of ofPickup) say(ahead, stroke);
  return {
    // The hand that does not play the stroke plays the grace notes ahead of it.
    notes: placed.map((note) => ({ ...note, graces: note.graces.map(() => freeHand(note.limb)) })),
    pickup: pickup.map((stroke, i) => ({ ...stroke, limb: ahead[i]!.limb })),
    said,
  };
}

/** Gives a stroke its hand, in place; false where there is no such stroke. */
function say(
  placed: { readonly partial: number; readonly voice: string; limb: Limb }[],
  { partial, voice, hand }: HandOfStroke,
): boolean {
  const here = placed.filter((one) => one.partial === partial && isHand(one.limb));
  const stroke = here.find((one) => one.voice === voice);
  if (!stroke) return false;
  for (const one of here) one.limb = one === stroke ? hand : freeHand(hand);
  return true;
}

type CycleCount = Pick<TargetPattern, 'subdivision' | 'cyclePartials'>;

/** What was said of single strokes; nothing where the cycle is counted otherwise by now. */
const strokesSaid = (
  hands: HandCorrections['hands'],
  { subdivision, cyclePartials }: CycleCount,
): readonly HandOfStroke[] =>
  hands?.subdivision === subdivision && hands.cyclePartials === cyclePartials ? hands.strokes : [];

/**
 * What the player has said so far, and of one stroke of a pattern its hand.
 *
 * @example withHand({}, { subdivision: 4, cyclePartials: 8 }, { partial: 2, voice: 'snare', hand: 'L' }).hands.strokes // => [{ partial: 2, voice: 'snare', hand: 'L' }]
 */
export function withHand(
  { hands }: HandCorrections,
  { subdivision, cyclePartials }: CycleCount,
  stroke: HandOfStroke,
): Required<Pick<Corrections, 'hands'>> {
  const said = strokesSaid(hands, { subdivision, cyclePartials });
  const others = said.filter(({ partial }) => partial !== stroke.partial);
  return { hands: { subdivision, cyclePartials, strokes: [...others, stroke] } };
}

/** What the player says, once each hand's strokes are the other's; said twice it is what it was. */
export const withHandsSwapped = ({ handsSwapped, leads, hands }: HandCorrections) => ({
  handsSwapped: handsSwapped ? undefined : (true as const),
  leads: leads && freeHand(leads),
  hands: hands && {
    ...hands,
    strokes: hands.strokes.map((stroke) => ({ ...stroke, hand: freeHand(stroke.hand) })),
  },
});
