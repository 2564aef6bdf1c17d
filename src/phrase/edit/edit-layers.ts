import { MAX_NAME, type LayerFile, type PhraseFile } from '../model/phrase-file';
import { withChanges } from './edit-changes';

const withLayers = (file: PhraseFile, layers: LayerFile[]): PhraseFile => ({ ...file, layers });

/** A bare layer put after layer `after` (1-based; 0 is ahead of all). */
export const addLayer = (
  file: PhraseFile,
  after: number = file.layers.length,
  name = `Layer ${after + 1}`,
): PhraseFile => withLayers(file, file.layers.toSpliced(after, 0, { name }));

/** Without layer `layer` (1-based); the only layer stays. */
export const removeLayer = (file: PhraseFile, layer: number): PhraseFile =>
  file.layers.length === 1 ? file : withLayers(file, file.layers.toSpliced(layer - 1, 1));

export const renameLayer = (file: PhraseFile, layer: number, name: string): PhraseFile =>
  withLayers(
    file,
    file.layers.map((one, i) => (i === layer - 1 ? { ...one, name } : one)),
  );

/** Layer `from` in the place that layer `to` has, both 1-based, the others in their order. */
export function moveLayer(file: PhraseFile, from: number, to: number): PhraseFile {
  const moved = file.layers[from - 1];
  if (!moved || !file.layers[to - 1] || from === to) return file;
  return withLayers(file, file.layers.toSpliced(from - 1, 1).toSpliced(to - 1, 0, moved));
}

/** A second layer like it right after it. */
export function duplicateLayer(file: PhraseFile, layer: number): PhraseFile {
  const one = file.layers[layer - 1];
  if (!one) return file;
  const copy = { ...one, name: `${one.name.slice(0, MAX_NAME - 6)}, copy` };
  return withLayers(file, file.layers.toSpliced(layer, 0, copy));
}

/** A muted layer keeps its changes and lays none of them on. */
export const muteLayer = (file: PhraseFile, layer: number, muted: boolean): PhraseFile =>
  withLayers(
    file,
    file.layers.map(({ muted: before, ...one }, i) => {
      const now = i === layer - 1 ? muted : before;
      return withChanges({ ...one, ...(now && { muted: now }) }, one.changes ?? []);
    }),
  );

/** Whether a layer can be made one with the next: not when only one of the two is muted, which would be heard. */
export function canMerge(file: PhraseFile, layer: number): boolean {
  const one = file.layers[layer - 1];
  const next = file.layers[layer];
  return one !== undefined && next !== undefined && (one.muted ?? false) === (next.muted ?? false);
}

/** A layer (1-based) and the next as one, their changes in order; the same file where they cannot be. */
export function mergeLayers(file: PhraseFile, layer: number): PhraseFile {
  const one = file.layers[layer - 1];
  const next = file.layers[layer];
  if (!one || !next || !canMerge(file, layer)) return file;
  const changes = [...(one.changes ?? []), ...(next.changes ?? [])];
  const merged = withChanges({ ...one, name: mergedName(one, next) }, changes);
  return withLayers(file, file.layers.toSpliced(layer - 1, 2, merged));
}

function mergedName(one: LayerFile, next: LayerFile): string {
  if (!one.changes?.length) return next.name;
  return next.changes?.length ? `${one.name} and ${next.name}`.slice(0, MAX_NAME) : one.name;
}
