import { phraseAsMusic, type MusicFormat, type MusicPart } from '../../../exchange/phrase-as-music';
import type { Phrase } from '../../../phrase/model/phrase';
import { fileName } from '../../page/file-name';
import { saveFile } from '../../page/save-file';

/** Saves a phrase for other music software; says what of it the file does not hold. */
export function saveMusic(phrase: Phrase, format: MusicFormat, part: MusicPart): string {
  const { content, sentences } = phraseAsMusic(phrase, format, part);
  saveFile(fileName({ title: phrase.title, otherwise: 'sheet' }, format), content);
  return sentences.join(' ');
}
