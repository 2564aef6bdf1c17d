import type { Change } from '../model/phrase';
import type { PhraseDraft } from '../model/phrase-draft';

/** The changes of a layer (1-based), also of one that is muted. */
export const changesOf = (draft: PhraseDraft, layer: number): readonly Change[] =>
  draft.layers[layer - 1]?.changes ?? [];

/** The draft with a layer's (1-based) changes put in place of those it had. */
export const editChanges = (
  draft: PhraseDraft,
  layer: number,
  changes: readonly Change[],
): PhraseDraft => ({
  ...draft,
  layers: draft.layers.map((one, i) => (i === layer - 1 ? { ...one, changes } : one)),
});

/** One more change at the end of a layer (1-based). */
export const addChange = (draft: PhraseDraft, layer: number, change: Change): PhraseDraft =>
  editChanges(draft, layer, [...changesOf(draft, layer), change]);

/** Another change in place of a layer's change `at`, from 0. */
export const replaceChange = (
  draft: PhraseDraft,
  layer: number,
  at: number,
  change: Change,
): PhraseDraft =>
  editChanges(
    draft,
    layer,
    changesOf(draft, layer).map((one, i) => (i === at ? change : one)),
  );

/** A layer without its change `at`, from 0. */
export const removeChange = (draft: PhraseDraft, layer: number, at: number): PhraseDraft =>
  editChanges(
    draft,
    layer,
    changesOf(draft, layer).filter((_, i) => i !== at),
  );
