import { DraftCheck } from '../../src/phrase/check/draft-check';
import type { LayerStack } from '../../src/phrase/layers/layer-stack';
import { draftOfFile } from '../../src/phrase/model/draft-file';
import type { PhraseDraft } from '../../src/phrase/model/phrase-draft';
import type { PhraseFile } from '../../src/phrase/model/phrase-file';

/** The draft that the data of a file is. */
export function draftFrom(file: PhraseFile): PhraseDraft {
  const draft = draftOfFile(file);
  if (!draft) throw new Error('A change of this file is of no kind.');
  return draft;
}

/** A draft that is a phrase, with its layers laid on. */
export function stackFrom(draft: PhraseDraft): LayerStack {
  const { stack, errors } = new DraftCheck(draft);
  if (!stack) throw new Error(errors.map(({ message }) => message).join('\n'));
  return stack;
}
