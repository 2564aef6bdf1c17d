import { remainder } from '../../time/whole';
import { countOf } from '../../words/words';
import { cycleSteps, withSteps } from '../model/grouping-text';
import { inOtherHand, isHand } from '../model/limb';
import type { Change, Phrase, RootStep } from '../model/phrase';
import { draftOf, type LayerDraft, type PhraseDraft } from '../model/phrase-draft';
import { variationOf, type LayeredVariation } from './layered-variation';
import { pinNumbers } from './pin-numbers';
import { rewrite, rewriteLayer, type Rewriting } from './rewrite';

/**
 * The cycle started `by` partials further on (negative: earlier), with all that changes say about its positions;
 * the pickup, beats of the bar and accent cycles stay where they are. By a whole cycle it is the same phrase, and
 * rotations add up.
 */
export function rotate(phrase: Phrase, by: number): LayeredVariation | undefined {
  const { cycle, grouping } = phrase;
  const start = remainder(by, cycle);
  const steps = cycleSteps(grouping, cycle);
  return variationOf(
    withSteps(rewrite(pinNumbers(phrase), rotating(cycle, by)), [
      ...steps.slice(start),
      ...steps.slice(0, start),
    ]),
    `The sticking starts ${countOf(start, 'partial')} further on in its cycle.`,
  );
}

/** What becomes of positions in a cycle that starts `by` partials further on. */
export const rotating = (cycle: number, by: number): Rewriting => ({
  positions: (position) => [remainder(position - 1 - by, cycle) + 1],
});

/**
 * The same grouping in a cycle of so many partials: cut earlier, or started over until the new end. Changes keep
 * their positions; those beyond the end go. Strokes that are numbered keep their places.
 */
export const changeCycle = (phrase: Phrase, cycle: number): LayeredVariation | undefined =>
  variationOf(
    { ...rewrite(pinNumbers(phrase), cuttingAt(cycle)), cycle },
    `The cycle has ${countOf(cycle, 'partial')} in place of ${phrase.cycle}.`,
  );

/** What becomes of positions in a cycle of so many partials. */
export const cuttingAt = (cycle: number): Rewriting => ({
  positions: (position) => (position <= cycle ? [position] : []),
});

/** What becomes of limbs whose hands are exchanged. */
export const MIRRORING: Rewriting = { limb: inOtherHand };

/** Right and left hand exchanged, voices and feet as they were. Twice it is the same phrase. */
export function mirror(phrase: Phrase): LayeredVariation | undefined {
  const steps = cycleSteps(phrase.grouping, phrase.cycle).map((step) =>
    step.map(({ limb, graces }) => ({ limb: inOtherHand(limb), graces: graces.map(inOtherHand) })),
  );
  const draft = withSteps(rewrite(draftOf(phrase), MIRRORING), steps);
  return variationOf(draft, 'Right and left hand are exchanged.');
}

/**
 * Every stroke of a hand played twice in its time, on a subdivision twice as fine; feet and grace notes stay
 * single, accents fall on the first of two. The cycle lasts as long as before.
 */
export const doubleStrokes = (phrase: Phrase): LayeredVariation | undefined =>
  variationOf(doublePhrase(phrase), 'Every stroke of a hand is played twice in its time.');

/** The same as a draft. */
function doublePhrase(phrase: Phrase): PhraseDraft {
  const pinned = pinNumbers(phrase);
  const steps = cycleSteps(phrase.grouping, phrase.cycle).flatMap((step): RootStep[] => [
    step,
    step.filter(({ limb }) => isHand(limb)).map(({ limb }) => ({ limb, graces: [] })),
  ]);
  return {
    ...withSteps(pinned, steps),
    subdivision: 2 * phrase.subdivision,
    layers: pinned.layers.map(doubleLayer),
  };
}

const onBoth = (place: number): number[] => [2 * place - 1, 2 * place];
const onFirst = (place: number): number[] => [2 * place - 1];
const doubling = (positions: (place: number) => number[]): Rewriting => ({
  positions,
  every: ({ partials, at }) => ({ partials: 2 * partials, at: at.flatMap(positions) }),
});
const ON_BOTH = doubling(onBoth);
const ON_FIRST = doubling(onFirst);

/** A layer at twice the partials. */
export function doubleLayer(layer: LayerDraft): LayerDraft {
  const both = rewriteLayer(layer, ON_BOTH);
  const first = rewriteLayer(layer, ON_FIRST);
  return { ...both, changes: both.changes.map((change, i) => doubled(change, first.changes[i]!)) };
}

/** A change at twice the partials; `first` is the same change on the first of two positions only. */
function doubled(change: Change, first: Change): Change {
  switch (change.kind) {
    case 'set':
      return change.set.level === 'accent' || change.set.grace !== undefined ? first : change;
    case 'pickup':
      return {
        ...change,
        pickup: change.pickup.map((s) => ({ ...s, partialsBefore: 2 * s.partialsBefore })),
      };
    case 'accentEvery': {
      const { where } = first.kind === 'accentEvery' ? first : change;
      const from = 2 * change.from - 1;
      return { ...change, accentEvery: 2 * change.accentEvery, from, where };
    }
    case 'displace':
      return { ...change, displace: 2 * change.displace };
    case 'subdivision':
      return { ...change, subdivision: 2 * change.subdivision };
    case 'add':
      return {
        ...change,
        add: change.add.flatMap((stroke) => {
          if (stroke.position % 2 === 1) return [stroke];
          if (!isHand(stroke.limb)) return [];
          return [{ ...stroke, ...(stroke.level === 'accent' && { level: 'tap' as const }) }];
        }),
      };
    default:
      return change;
  }
}
