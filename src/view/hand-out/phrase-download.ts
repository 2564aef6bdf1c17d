import { writePhrases } from '../../phrase/file/phrase-list';
import type { Phrase } from '../../phrase/model/phrase';
import { countOf } from '../../words/words';
import { fileName } from '../page/file-name';
import { saveFile } from '../page/save-file';

/** Phrases in a few words: a title, or how many. @example phrasesName([]) // => '0 phrases' */
export const phrasesName = (phrases: readonly Phrase[]): string =>
  phrases.length === 1 ? phrases[0]!.title : countOf(phrases.length, 'phrase');

/** Gives the player one phrase or several as one file. */
export function savePhrases(phrases: readonly Phrase[]): void {
  const name = fileName({ title: phrasesName(phrases), otherwise: 'phrase' }, 'json');
  saveFile(name, writePhrases(phrases));
}
