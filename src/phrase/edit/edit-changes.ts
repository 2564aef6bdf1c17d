import type { ChangeFile, LayerFile, PhraseFile } from '../model/phrase-file';

/** The changes of a layer (1-based) as its file has them. */
export const changesOf = (file: PhraseFile, layer: number): readonly ChangeFile[] =>
  file.layers[layer - 1]?.changes ?? [];

/** The layer with these changes and no others; without the key when there are none. */
export function withChanges(layer: LayerFile, changes: readonly ChangeFile[]): LayerFile {
  const { name, muted } = layer;
  return {
    name,
    ...(muted !== undefined && { muted }),
    ...(changes.length > 0 && { changes: [...changes] }),
  };
}

/** The file with a layer's (1-based) changes put in place of those it had. */
export const editChanges = (
  file: PhraseFile,
  layer: number,
  changes: readonly ChangeFile[],
): PhraseFile => ({
  ...file,
  layers: file.layers.map((one, i) => (i === layer - 1 ? withChanges(one, changes) : one)),
});

/** One more change at the end of a layer (1-based). */
export const addChange = (file: PhraseFile, layer: number, change: ChangeFile): PhraseFile =>
  editChanges(file, layer, [...changesOf(file, layer), change]);

/** Another change in place of a layer's change `at`, from 0. */
export const replaceChange = (
  file: PhraseFile,
  layer: number,
  at: number,
  change: ChangeFile,
): PhraseFile =>
  editChanges(
    file,
    layer,
    changesOf(file, layer).map((one, i) => (i === at ? change : one)),
  );

/** A layer without its change `at`, from 0. */
export const removeChange = (file: PhraseFile, layer: number, at: number): PhraseFile =>
  editChanges(
    file,
    layer,
    changesOf(file, layer).filter((_, i) => i !== at),
  );
