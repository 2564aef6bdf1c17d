import { layOn } from '../layers/lay-on';
import { LIMBS, type Limb } from '../model/limb';
import { someSelector } from '../layers/matches-selector';
import type { Change, Phrase, Selector } from '../model/phrase';

interface Numbered {
  readonly limb: Limb;
  readonly position: number;
  readonly nth: number;
}

/**
 * The phrase with every nth replaced by the positions it stands for in the first cycle, so that positions can be
 * moved about.
 */
export function pinNumbers(phrase: Phrase): Phrase {
  const wheres = phrase.layers.flatMap(({ changes }) =>
    changes.flatMap((change) => ('where' in change ? [change.where] : [])),
  );
  if (!wheres.some(hasNumbers)) return phrase;
  const layers = phrase.layers.map((layer) => ({ ...layer, changes: [...layer.changes] }));
  layOn(phrase, phrase.layers.length, 1, {
    before({ change, layerIndex, changeIndex, strokes }) {
      if (!('where' in change) || !hasNumbers(change.where)) return;
      const counts: Record<Limb, number> = { R: 0, L: 0, K: 0, F: 0 };
      const numbered = strokes.map(({ limb, position }) => ({
        limb,
        position,
        nth: ++counts[limb],
      }));
      const pinned: Change = { ...change, where: pinSelector(change.where, numbered) };
      layers[layerIndex]!.changes[changeIndex] = pinned;
    },
  });
  return { ...phrase, layers };
}

/** Whether a selector counts the strokes of a limb. */
export const hasNumbers = (where: Selector): boolean =>
  someSelector(where, ({ nth }) => nth !== undefined);

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
