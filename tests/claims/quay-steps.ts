import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import type { Phrase } from '../../src/phrase/model/phrase';
import { libraryPhrases } from '../phrase/library-phrases';

/** A phrase of the library with a pickup, which players at the gate play. */
export function quaySteps(): Phrase {
  const { text } = libraryPhrases().find(({ name }) => name === 'quay-steps')!;
  const parsed = parsePhrase(text);
  if (!parsed.ok) throw new Error('no such phrase');
  return parsed.value;
}
