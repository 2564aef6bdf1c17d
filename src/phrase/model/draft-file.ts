import type { Change } from './phrase';
import type { LayerDraft, PhraseDraft } from './phrase-draft';
import { CHANGE_KINDS, type ChangeFile, type LayerFile, type PhraseFile } from './phrase-file';

/** A draft as the data of its file. */
export const draftFile = (draft: PhraseDraft): PhraseFile => ({
  ...draft,
  layers: draft.layers.map(layerFile),
});

/** A layer as the data of its file, without what is only a default. */
export const layerFile = ({ name, muted, changes }: LayerDraft): LayerFile => ({
  name,
  ...(muted && { muted }),
  ...(changes.length > 0 && { changes: changes.map(changeFile) }),
});

function changeFile(change: Change): ChangeFile {
  const { kind, ...file } = change;
  if (kind !== 'accentEvery') return file;
  const { accentEvery, from, where } = change;
  return {
    accentEvery,
    ...(from !== 1 && { from }),
    ...(Object.keys(where).length > 0 && { where }),
  };
}

/** The draft that a file is, whether or not it is a phrase; undefined where a change is of no kind. */
export function draftOfFile({ layers, ...head }: PhraseFile): PhraseDraft | undefined {
  const drafts = layers.map(({ name, muted, changes = [] }): LayerDraft | undefined => {
    const read = changes.flatMap((change) => changeOfFile(change) ?? []);
    return read.length < changes.length
      ? undefined
      : { name, ...(muted && { muted }), changes: read };
  });
  const known = drafts.filter((layer) => layer !== undefined);
  return known.length < layers.length ? undefined : { ...head, layers: known };
}

function changeOfFile(file: ChangeFile): Change | undefined {
  const kind = CHANGE_KINDS.find((key) => Object.hasOwn(file, key));
  if (kind === undefined) return undefined;
  if ('accentEvery' in file) return { kind: 'accentEvery', from: 1, where: {}, ...file };
  return { kind, ...file } as Change;
}
