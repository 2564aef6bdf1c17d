import { DraftCheck, withLayer } from '../check/draft-check';
import type { LayerStack } from '../layers/layer-stack';
import type { Change, Phrase } from '../model/phrase';
import type { PhraseDraft } from '../model/phrase-draft';

/** A phrase made from another, and what changed in one sentence. */
export interface VariedPhrase {
  readonly phrase: Phrase;
  readonly sentence: string;
}

/** The same with its layers laid on, so that it can be varied again and judged with little work. */
export interface LayeredVariation {
  readonly stack: LayerStack;
  readonly sentence: string;
}

/** The variation that a draft is; undefined when it is no phrase. */
export function variationOf(draft: PhraseDraft, sentence: string): LayeredVariation | undefined {
  const { stack } = new DraftCheck(draft);
  return stack && { stack, sentence };
}

/** The phrase with one more layer, which does all that changes; undefined when it is none. */
export function variationOver(
  stack: LayerStack,
  layer: { readonly name: string; readonly changes: readonly Change[] },
  sentence: string,
): LayeredVariation | undefined {
  const more = withLayer(stack, layer);
  return more && { stack: more, sentence };
}
