import { checkPhrase } from '../parse-phrase';
import type { Phrase } from '../phrase';
import type { PhraseFile } from '../phrase-file';

/**
 * The phrase that a file's layers up to one (1-based) make, that layer laid on even where it is muted: what somebody
 * sees who edits the layer. Undefined while those layers are not right; what comes after them does not matter.
 */
export function phraseUpTo(file: PhraseFile, layer: number): Phrase | undefined {
  const layers = file.layers.slice(0, layer).map((one, i) => {
    if (i < layer - 1 || !one.muted) return one;
    const { name, changes } = one;
    return { name, ...(changes && { changes }) };
  });
  const checked = checkPhrase({ ...file, layers });
  return checked.ok ? checked.value : undefined;
}
