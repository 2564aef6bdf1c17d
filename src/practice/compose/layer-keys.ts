import { changesOf } from '../../phrase/edit/edit-changes';
import type { Change } from '../../phrase/model/phrase';
import type { LayerDraft, PhraseDraft } from '../../phrase/model/phrase-draft';

/** Numbers by which a layer and each of its changes are known while they are edited, moved, split and merged. */
export interface LayerKeys {
  readonly layer: number;
  /** In the order of the changes. */
  readonly changes: readonly number[];
}

/** A draft with the keys of its layers. */
export interface KeyedDraft {
  readonly draft: PhraseDraft;
  readonly keys: readonly LayerKeys[];
}

/**
 * The keys of a draft's layers. What stands in the draft before as the same object keeps its key, wherever it is now;
 * layers that were written anew take those of the layers they stand for, in order, and changes those of their layer.
 * What is new has a key from `fresh`.
 */
export function layerKeys(
  draft: PhraseDraft,
  before: KeyedDraft | undefined,
  fresh: () => number,
): readonly LayerKeys[] {
  const old = before ? before.draft.layers : [];
  const oldKeys = before ? before.keys : [];
  const pairs = paired(draft.layers, old);
  const sameChanges = new Map<Change, number>();
  old.forEach(({ changes }, i) => {
    changes.forEach((change, at) => sameChanges.set(change, oldKeys[i]!.changes[at]!));
  });
  const taken = new Set<number>();
  const kept = draft.layers.map(({ changes }) =>
    changes.map((change) => {
      const key = sameChanges.get(change);
      if (key === undefined || taken.has(key)) return undefined;
      taken.add(key);
      return key;
    }),
  );
  return pairs.map((from, i) => {
    const left = (from === undefined ? [] : oldKeys[from]!.changes).filter(
      (key) => !taken.has(key),
    );
    return {
      layer: from === undefined ? fresh() : oldKeys[from]!.layer,
      changes: changesOf(draft, i + 1).map((_, at) => kept[i]![at] ?? left.shift() ?? fresh()),
    };
  });
}

/** For each layer the place of the one it was: of the same object, else of the first that no other layer was. */
function paired(
  layers: readonly LayerDraft[],
  old: readonly LayerDraft[],
): readonly (number | undefined)[] {
  const left = new Set(old.keys());
  const same = layers.map((layer) => {
    const at = old.indexOf(layer);
    return left.delete(at) ? at : undefined;
  });
  return same.map((at) => {
    if (at !== undefined) return at;
    const [first] = left;
    if (first !== undefined) left.delete(first);
    return first;
  });
}
