import type { Limb } from '../model/limb';
import type { Change, Every, Selector } from '../model/phrase';
import type { LayerDraft, PhraseDraft } from '../model/phrase-draft';

/** What becomes of the places and limbs that changes name; without a key they stay. */
export interface Rewriting {
  /** Where a position goes to: to none, one or several. */
  readonly positions?: (position: number) => readonly number[];
  readonly limb?: (limb: Limb) => Limb;
  readonly every?: (every: Every) => Every;
}

/**
 * A draft with the positions and limbs of its changes rewritten; what selects only positions that went nowhere
 * goes with them.
 */
export const rewrite = (draft: PhraseDraft, rewriting: Rewriting): PhraseDraft => ({
  ...draft,
  layers: draft.layers.map((layer) => rewriteLayer(layer, rewriting)),
});

/** The same for one layer. */
export const rewriteLayer = (layer: LayerDraft, rewriting: Rewriting): LayerDraft => ({
  ...layer,
  changes: layer.changes.flatMap((change) => rewriteChange(change, rewriting)),
});

const same = <T>(unchanged: T): T => unchanged;
const inPlace = (position: number): readonly number[] => [position];

function rewriteChange(change: Change, rewriting: Rewriting): Change[] {
  const { positions = inPlace, limb = same, every = same } = rewriting;
  switch (change.kind) {
    case 'add': {
      const add = change.add.flatMap((stroke) =>
        positions(stroke.position).map((position) => ({
          ...stroke,
          limb: limb(stroke.limb),
          position,
        })),
      );
      return add.length > 0 ? [{ ...change, add }] : [];
    }
    case 'pickup':
      return [
        { ...change, pickup: change.pickup.map((one) => ({ ...one, limb: limb(one.limb) })) },
      ];
    case 'set': {
      const where = rewriteSelector(change.where, { positions, limb, every });
      const { set } = change;
      const moved = set.limb ? { ...set, limb: limb(set.limb) } : set;
      return where ? [{ ...change, where, set: moved }] : [];
    }
    case 'accentEvery': {
      const where = rewriteSelector(change.where, { positions, limb, every });
      return where ? [{ ...change, where }] : [];
    }
    default:
      return [change];
  }
}

/** Undefined when nothing can be selected any more. */
function rewriteSelector(where: Selector, rewriting: Required<Rewriting>): Selector | undefined {
  const { not, any, ...rest } = where;
  const { positions, limb, every } = rest;
  const moved =
    rewriting.positions === inPlace
      ? positions
      : positions?.flatMap(rewriting.positions).sort((a, b) => a - b);
  const members = any?.flatMap((member) => rewriteSelector(member, rewriting) ?? []);
  if (moved?.length === 0 || members?.length === 0) return undefined;
  const excluded = not && rewriteSelector(not, rewriting);
  return {
    ...rest,
    ...(limb && { limb: rewriting.limb(limb) }),
    ...(moved && { positions: moved }),
    ...(every && { every: rewriting.every(every) }),
    ...(excluded && { not: excluded }),
    ...(members && { any: members }),
  };
}
