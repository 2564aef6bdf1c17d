import { checkPhrase } from '../parse-phrase';
import type { Phrase } from '../phrase';
import type { PhraseFile } from '../phrase-file';

/** The phrase of a file made by a variation, or undefined when it is none: the variation does not suit the phrase. */
export function checkedFile(file: PhraseFile): Phrase | undefined {
  const checked = checkPhrase(file);
  return checked.ok ? checked.value : undefined;
}
