import { checkPhrase } from '../../src/phrase/file/parse-phrase';
import { draftFile } from '../../src/phrase/model/draft-file';
import { draftOf } from '../../src/phrase/model/phrase-draft';
import type { Phrase } from '../../src/phrase/model/phrase';
import type { ChangeFile, PhraseFile } from '../../src/phrase/model/phrase-file';

/** A phrase from what a test is about: sixteenths in 4/4 with one bare layer unless told otherwise. */
export function phraseOf(file: Partial<PhraseFile>): Phrase {
  const checked = checkPhrase({
    title: 'Breakwater',
    meter: '4/4',
    tempoBpm: 90,
    subdivision: 4,
    grouping: 'R L',
    layers: [{ name: 'Sticking' }],
    ...file,
  });
  if (!checked.ok) throw new Error(checked.errors.map((error) => error.message).join('\n'));
  return checked.value;
}

/** A phrase with a bare first layer and a layer for each list of changes. */
export const layeredPhrase = (
  file: Partial<PhraseFile>,
  ...layers: readonly ChangeFile[][]
): Phrase =>
  phraseOf({
    ...file,
    layers: [
      { name: 'Sticking' },
      ...layers.map((changes, i) => ({ name: `Layer ${i + 2}`, changes })),
    ],
  });

/** A phrase as the data of its file. */
export const phraseFile = (phrase: Phrase): PhraseFile => draftFile(draftOf(phrase));
