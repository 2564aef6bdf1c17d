import type { Phrase } from '../phrase';
import type { ChangeFile, PhraseFile } from '../phrase-file';
import { phraseFile } from '../write-phrase';
import { checkedFile } from './checked-file';

/** A phrase made from another, and what changed in one sentence. */
export interface Varied {
  readonly phrase: Phrase;
  readonly sentence: string;
}

/** A file as a varied phrase; undefined when it is no phrase. */
export function varied(file: PhraseFile, sentence: string): Varied | undefined {
  const phrase = checkedFile(file);
  return phrase && { phrase, sentence };
}

/** The phrase with one more layer, which does all that changes. */
export function withLayer(
  phrase: Phrase,
  name: string,
  changes: ChangeFile[],
  sentence: string,
): Varied | undefined {
  const file = phraseFile(phrase);
  return varied({ ...file, layers: [...file.layers, { name, changes }] }, sentence);
}

/** A count with its noun. @example counted(1, 'partial') // => '1 partial' */
export const counted = (count: number, noun: string): string =>
  `${count} ${noun}${count === 1 ? '' : 's'}`;
