import { DraftCheck } from '../check/draft-check';
import type { PhraseDraft } from '../model/phrase-draft';
import { MOST_ERRORS, type PhraseError } from '../model/phrase-error';
import { bad, good, type Result } from '../../time/result';

/**
 * Another phrase with a layer (1-based) of this one laid over its last, name, changes and all. Errors: what of the layer
 * does not suit that phrase, such as a position that its cycle does not have; places as that phrase would have them.
 *
 * @throws RangeError when there is no such layer.
 */
export function copyLayer(
  from: PhraseDraft,
  layer: number,
  into: PhraseDraft,
): Result<PhraseDraft, PhraseError> {
  const copied = from.layers[layer - 1];
  if (!copied) throw new RangeError(`the phrase has ${from.layers.length} layers, not ${layer}`);
  const draft = { ...into, layers: [...into.layers, copied] };
  const { errors } = new DraftCheck(draft);
  const added = `layers[${into.layers.length}]`;
  const own = errors.filter(({ place }) => place === 'layers' || place.startsWith(added));
  return own.length > 0 ? bad(...own.slice(0, MOST_ERRORS)) : good(draft);
}
