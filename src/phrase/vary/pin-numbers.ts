import { hasNumbers } from '../layers/matches-selector';
import { layerStack, type LayerStack } from '../layers/layer-stack';
import { LIMBS, type Limb } from '../model/limb';
import type { Change, Phrase, Selector } from '../model/phrase';
import { draftOf, type PhraseDraft } from '../model/phrase-draft';

interface Numbered {
  readonly limb: Limb;
  readonly position: number;
  readonly nth: number;
}

/**
 * The phrase with every nth replaced by the positions it stands for in the first cycle, so that positions can be
 * moved about.
 */
export function pinNumbers(phrase: Phrase): PhraseDraft {
  const draft = draftOf(phrase);
  const isNumbered = (change: Change) => 'where' in change && hasNumbers(change.where);
  if (!phrase.layers.some(({ changes }) => changes.some(isNumbered))) return draft;
  const layers = draft.layers.map((layer, i) => {
    if (layer.muted || !layer.changes.some(isNumbered)) return layer;
    const stack = layerStack(phrase, i + 1);
    return { ...layer, changes: layer.changes.map((change, at) => pinChange(change, stack, at)) };
  });
  return { ...draft, layers };
}

function pinChange(change: Change, stack: LayerStack, at: number): Change {
  if (!('where' in change) || !hasNumbers(change.where)) return change;
  const counts: Record<Limb, number> = { R: 0, L: 0, K: 0, F: 0 };
  const numbered = stack
    .strokesAfter(at, 1)
    .map(({ limb, position }) => ({ limb, position, nth: ++counts[limb] }));
  return { ...change, where: pinSelector(change.where, numbered) };
}

function pinSelector({ nth, not, any, ...rest }: Selector, strokes: readonly Numbered[]): Selector {
  const kept: Selector = {
    ...rest,
    ...(not && { not: pinSelector(not, strokes) }),
    ...(any && { any: any.map((member) => pinSelector(member, strokes)) }),
  };
  if (!nth) return kept;
  const meant = strokes.filter(
    (stroke) =>
      nth.includes(stroke.nth) &&
      (rest.limb === undefined || rest.grace === true || rest.limb === stroke.limb) &&
      (rest.positions === undefined || rest.positions.includes(stroke.position)),
  );
  const places = (found: readonly Numbered[]) => [...new Set(found.map((s) => s.position))];
  if (rest.limb !== undefined || rest.grace === true || any)
    return { ...kept, positions: places(meant) };
  return {
    ...kept,
    any: LIMBS.flatMap((limb) => {
      const positions = places(meant.filter((stroke) => stroke.limb === limb));
      return positions.length > 0 ? [{ limb, positions }] : [];
    }),
  };
}
