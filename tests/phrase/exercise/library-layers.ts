import { parsePhrase } from '../../../src/phrase/file/parse-phrase';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { libraryPhrases } from '../library-phrases';

/** Every layer (1-based) of the phrases that come with the app. */
export const LIBRARY_LAYERS: readonly {
  readonly name: string;
  readonly phrase: Phrase;
  readonly layer: number;
}[] = libraryPhrases().flatMap(({ name, text }) => {
  const parsed = parsePhrase(text);
  if (!parsed.ok) throw new Error(`${name}: ${parsed.errors[0]!.message}`);
  const phrase = parsed.value;
  return phrase.layers.map((_, i) => ({ name, phrase, layer: i + 1 }));
});
