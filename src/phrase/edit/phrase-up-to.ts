import { checkPhrase } from '../file/parse-phrase';
import type { Phrase } from '../model/phrase';
import type { PhraseFile } from '../model/phrase-file';

/**
 * The phrase that a file's layers up to one (1-based) make, that layer laid on even where it is muted: what somebody
 * sees who edits the layer. Undefined while those layers are not right; what comes after them does not matter, nor
 * does a title or name that is still empty.
 */
export function phraseUpTo(file: PhraseFile, layer: number): Phrase | undefined {
  const layers = file.layers.slice(0, layer).map(({ muted, ...one }, i) => ({
    ...one,
    name: named(one.name),
    ...(muted !== undefined && i < layer - 1 && { muted }),
  }));
  const checked = checkPhrase({ ...file, title: named(file.title), layers });
  return checked.ok ? checked.value : undefined;
}

const named = (name: string): string => (name.trim() === '' ? 'not named yet' : name);
