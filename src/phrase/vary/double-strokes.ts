import { isHand } from '../limb';
import type { Phrase, RootStep } from '../phrase';
import type { ChangeFile, LayerFile, PhraseFile } from '../phrase-file';
import { phraseFile } from '../write-phrase';
import { cycleSteps, groupingText } from './grouping-text';
import { pinNumbers } from './pin-numbers';
import { rewriteLayer, type Rewriting } from './rewrite';
import { made, type Made } from './varied';

/**
 * Every stroke of a hand played twice in its time, on a subdivision twice as fine; feet and grace notes stay
 * single, accents fall on the first of two. The cycle lasts as long as before.
 */
export function doubleStrokes(phrase: Phrase): Made | undefined {
  const pinned = phraseFile(pinNumbers(phrase));
  const steps = cycleSteps(phrase.grouping, phrase.cycle).flatMap((step): RootStep[] => [
    step,
    step.filter(({ limb }) => isHand(limb)).map(({ limb }) => ({ limb, graces: [] })),
  ]);
  const file: PhraseFile = {
    ...pinned,
    subdivision: 2 * phrase.subdivision,
    grouping: groupingText(steps),
    cycle: 2 * phrase.cycle,
    layers: pinned.layers.map(doubleLayer),
  };
  return made(file, 'Every stroke of a hand is played twice in its time.');
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
export function doubleLayer(layer: LayerFile): LayerFile {
  const both = rewriteLayer(layer, ON_BOTH);
  const first = rewriteLayer(layer, ON_FIRST).changes;
  return { ...both, changes: both.changes.map((change, i) => doubled(change, first[i]!)) };
}

/** A change at twice the partials; `first` is the same change on the first of two positions only. */
function doubled(change: ChangeFile, first: ChangeFile): ChangeFile {
  if ('set' in change)
    return change.set.level === 'accent' || change.set.grace !== undefined ? first : change;
  if ('pickup' in change)
    return {
      pickup: change.pickup.map((s) => ({ ...s, partialsBefore: 2 * s.partialsBefore })),
    };
  if ('accentEvery' in change) {
    const { where } = 'accentEvery' in first ? first : change;
    const from = 2 * (change.from ?? 1) - 1;
    return { accentEvery: 2 * change.accentEvery, from, ...(where && { where }) };
  }
  if ('displace' in change) return { displace: 2 * change.displace };
  if ('subdivision' in change) return { subdivision: 2 * change.subdivision };
  if ('add' in change)
    return {
      add: change.add.flatMap((stroke) => {
        if (stroke.position % 2 === 1) return [stroke];
        if (!isHand(stroke.limb)) return [];
        return [{ ...stroke, ...(stroke.level === 'accent' && { level: 'tap' as const }) }];
      }),
    };
  return change;
}
