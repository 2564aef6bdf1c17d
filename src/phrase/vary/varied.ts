import { LaidLayers } from '../laid-layers';
import type { Phrase } from '../phrase';
import type { PhraseFile } from '../phrase-file';
import { checkedFile } from './checked-file';
import { withCheckedLayer, type PlainChange } from './checked-layer';

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

/** A file as a phrase made; undefined when it is none. */
export function made(file: PhraseFile, sentence: string): Made | undefined {
  const phrase = checkedFile(file);
  return phrase && { laid: new LaidLayers(phrase), sentence };
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

/** A count with its noun. @example counted(1, 'partial') // => '1 partial' */
export const counted = (count: number, noun: string): string =>
  `${count} ${noun}${count === 1 ? '' : 's'}`;
