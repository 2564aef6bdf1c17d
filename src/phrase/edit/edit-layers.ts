import type { LayerDraft, PhraseDraft } from '../model/phrase-draft';
import { MAX_NAME } from '../model/phrase-file';

const withLayers = (draft: PhraseDraft, layers: readonly LayerDraft[]): PhraseDraft => ({
  ...draft,
  layers,
});

/** A bare layer put after layer `after` (1-based; 0 is ahead of all). */
export const addLayer = (
  draft: PhraseDraft,
  after: number = draft.layers.length,
  name = `Layer ${after + 1}`,
): PhraseDraft => withLayers(draft, draft.layers.toSpliced(after, 0, { name, changes: [] }));

/** Without layer `layer` (1-based); the only layer stays. */
export const removeLayer = (draft: PhraseDraft, layer: number): PhraseDraft =>
  draft.layers.length === 1 ? draft : withLayers(draft, draft.layers.toSpliced(layer - 1, 1));

export const renameLayer = (draft: PhraseDraft, layer: number, name: string): PhraseDraft =>
  withLayers(
    draft,
    draft.layers.map((one, i) => (i === layer - 1 ? { ...one, name } : one)),
  );

/** Layer `from` in the place that layer `to` has, both 1-based, the others in their order. */
export function moveLayer(draft: PhraseDraft, from: number, to: number): PhraseDraft {
  const moved = draft.layers[from - 1];
  if (!moved || !draft.layers[to - 1] || from === to) return draft;
  return withLayers(draft, draft.layers.toSpliced(from - 1, 1).toSpliced(to - 1, 0, moved));
}

/** A second layer like it right after it. */
export function duplicateLayer(draft: PhraseDraft, layer: number): PhraseDraft {
  const one = draft.layers[layer - 1];
  if (!one) return draft;
  const copy = { ...one, name: `${one.name.slice(0, MAX_NAME - 6)}, copy` };
  return withLayers(draft, draft.layers.toSpliced(layer, 0, copy));
}

/** A muted layer keeps its changes and lays none of them on. */
export const muteLayer = (draft: PhraseDraft, layer: number, muted: boolean): PhraseDraft =>
  withLayers(
    draft,
    draft.layers.map((one, i) => {
      if (i !== layer - 1) return one;
      const { name, changes } = one;
      return { name, ...(muted && { muted }), changes };
    }),
  );

/** Whether a layer can be made one with the next: not when only one of the two is muted, which would be heard. */
export function canMerge(draft: PhraseDraft, layer: number): boolean {
  const one = draft.layers[layer - 1];
  const next = draft.layers[layer];
  return one !== undefined && next !== undefined && (one.muted ?? false) === (next.muted ?? false);
}

/** A layer (1-based) and the next as one, their changes in order; the same draft where they cannot be. */
export function mergeLayers(draft: PhraseDraft, layer: number): PhraseDraft {
  const one = draft.layers[layer - 1];
  const next = draft.layers[layer];
  if (!one || !next || !canMerge(draft, layer)) return draft;
  const changes = [...one.changes, ...next.changes];
  const merged = { ...one, name: mergedName(one, next), changes };
  return withLayers(draft, draft.layers.toSpliced(layer - 1, 2, merged));
}

function mergedName(one: LayerDraft, next: LayerDraft): string {
  if (one.changes.length === 0) return next.name;
  return next.changes.length > 0 ? `${one.name} and ${next.name}`.slice(0, MAX_NAME) : one.name;
}
