import { bad, type Result } from '../../time/result';
import { checkShapedDraft, trustDraft, withGrouping } from '../check/draft-check';
import { draftOfFile } from '../model/draft-file';
import type { Phrase } from '../model/phrase';
import type { PhraseFile } from '../model/phrase-file';
import { MOST_ERRORS, phraseError, type PhraseError } from '../model/phrase-error';
import { jsonOfText } from './json-of-text';
import { readShape } from './read-shape';

/** Longest text that is read as a phrase, characters. Chosen, not measured: a hundred times a rich phrase. */
const MAX_TEXT = 400_000;

/**
 * A phrase from the text of its file, or what is wrong with it, at most MOST_ERRORS of it.
 *
 * @example parsePhrase('{ "title": }').errors[0].code // => 'NOT_JSON'
 */
export function parsePhrase(text: string): Result<Phrase, PhraseError> {
  if (text.length > MAX_TEXT) {
    const found = `${text.length} characters`;
    return bad(phraseError('TOO_LARGE', '', { found, expected: MAX_TEXT }));
  }
  const file = jsonOfText(text);
  return file.ok ? checkPhrase(file.value) : file;
}

/**
 * A phrase from the text of a file that is known to be right, such as those that come with the app: tests read every
 * one of them as any other file is read.
 *
 * @throws when it is no phrase at all
 * @example trustPhrase('{ "title": "Slip", "meter": "4/4", "tempoBpm": 90, "subdivision": 4, "grouping": "R L K", "layers": [{ "name": "Sticking" }] }').cycle // => 3
 */
export const trustPhrase = (text: string): Phrase =>
  trustDraft(draftOfFile(JSON.parse(text) as PhraseFile)!);

/**
 * A phrase from the data of its file, or what is wrong with it, at most MOST_ERRORS of it.
 *
 * @example checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value.cycle // => 3
 */
export function checkPhrase(file: unknown): Result<Phrase, PhraseError> {
  const { phrases } = (file ?? {}) as { phrases?: unknown };
  if (Array.isArray(phrases))
    return bad(phraseError('SEVERAL_PHRASES', 'phrases', { found: phrases.length }));
  const shape = readShape(file);
  if (!shape.ok) {
    const { grouping } = (file ?? {}) as { grouping?: unknown };
    return bad(...withGrouping(shape.errors, grouping).slice(0, MOST_ERRORS));
  }
  return checkShapedDraft(draftOfFile(shape.value)!);
}
