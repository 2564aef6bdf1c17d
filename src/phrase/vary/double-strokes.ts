import { isHand } from '../model/limb';
import type { Change, Layer, Phrase, RootStep } from '../model/phrase';
import { cycleSteps, withSteps } from '../model/grouping-text';
import { pinNumbers } from './pin-numbers';
import { rewriteLayer, type Rewriting } from './rewrite';
import { made, type Made } from './varied';

/**
 * Every stroke of a hand played twice in its time, on a subdivision twice as fine; feet and grace notes stay
 * single, accents fall on the first of two. The cycle lasts as long as before.
 */
export const doubleStrokes = (phrase: Phrase): Made | undefined =>
  made(doublePhrase(phrase), 'Every stroke of a hand is played twice in its time.');

/** The same as a phrase that nobody has checked. */
export function doublePhrase(phrase: Phrase): Phrase {
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
export function doubleLayer(layer: Layer): Layer {
  const both = rewriteLayer(layer, ON_BOTH);
  const first = rewriteLayer(layer, ON_FIRST);
  const { name, muted } = both;
  return {
    name,
    changes: both.changes.map((change, i) => doubled(change, first.changes[i]!)),
    ...(muted && { muted: muted.map((change, i) => doubled(change, first.muted![i]!)) }),
  };
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
