import type { LaidLayers } from '../layers/laid-layers';
import type { Phrase } from '../model/phrase';
import { checkedLayers, withCheckedLayer, type PlainChange } from './checked-layer';

/** A phrase made from another, and what changed in one sentence. */
export interface Varied {
  readonly phrase: Phrase;
  readonly sentence: string;
}

/** A varied phrase with its layers laid on, so that it can be varied again and judged with little work. */
export interface Made {
  readonly laid: LaidLayers;
  readonly sentence: string;
}

/** A phrase put together from the parts of checked ones, as made; undefined when it is none. */
export function made(phrase: Phrase, sentence: string): Made | undefined {
  const laid = checkedLayers(phrase);
  return laid && { laid, sentence };
}

/** The phrase with one more layer, which does all that changes; undefined when it is none. */
export function withLayer(
  laid: LaidLayers,
  name: string,
  changes: readonly PlainChange[],
  sentence: string,
): Made | undefined {
  const more = withCheckedLayer(laid, { name, changes });
  return more && { laid: more, sentence };
}
