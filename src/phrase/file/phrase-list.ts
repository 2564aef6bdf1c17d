import * as v from 'valibot';
import { bad, good, type Result } from '../../time/result';
import { readable, inputText } from '../check/shape-error';
import { draftFile } from '../model/draft-file';
import type { Phrase } from '../model/phrase';
import { draftOf } from '../model/phrase-draft';
import { MOST_ERRORS, phraseError, type PhraseError } from '../model/phrase-error';
import { phraseFileSchema } from '../model/phrase-file';
import { jsonOfText } from './json-of-text';
import { checkPhrase, parsePhrase } from './parse-phrase';
import { writePhrase } from './write-phrase';

/** Most phrases in one file. Chosen, not measured: what a teacher gathers in years. */
export const MOST_PHRASES = 500;

/** The shape of a file of several phrases, for its JSON Schema: `parsePhrases` checks them one by one. */
export const phraseListSchema = v.strictObject({
  phrases: v.pipe(
    v.array(phraseFileSchema),
    v.minLength(1),
    v.maxLength(MOST_PHRASES),
    v.description('Phrases, each as in a file of its own'),
  ),
});

/** Longest text that is read as several phrases, characters; of one it is less. Chosen, not measured. */
const MOST_CHARACTERS = 1_000_000;

/**
 * Opening brackets at most, in all and within each other. Chosen, not measured: far more than any file needs, and few
 * enough that they cost nothing. A browser takes 100 ms for a million characters of them, which a link of a thousand
 * characters can hold.
 */
const MOST_BRACKETS = 100_000;
const MOST_NESTED = 1000;

/**
 * The phrases of a file that holds one, or several as `{ "phrases": [ … ] }`. All of them are right, or what is wrong is
 * told, at most MOST_ERRORS of it, with the phrase in the place: "phrases[2].layers[0].name".
 *
 * @example parsePhrases('{ "phrases": [{}] }').errors[0].place // => 'phrases[0].title'
 */
export function parsePhrases(text: string): Result<readonly Phrase[], PhraseError> {
  if (text.length > MOST_CHARACTERS) {
    const found = `${text.length} characters`;
    return bad(phraseError('TOO_LARGE', '', { found, expected: MOST_CHARACTERS }));
  }
  const tooMany = bracketsBeyond(text);
  if (tooMany) return bad(phraseError('TOO_LARGE', '', tooMany));
  const file = jsonOfText(text);
  if (!file.ok) return file;
  if (!isObject(file.value) || !Object.hasOwn(file.value, 'phrases')) {
    const phrase = parsePhrase(text);
    return phrase.ok ? good([phrase.value]) : phrase;
  }
  const [unknown] = Object.keys(file.value).filter((key) => key !== 'phrases');
  if (unknown !== undefined) {
    const key = readable(unknown);
    return bad(phraseError('UNKNOWN_KEY', key, { key, expected: '"phrases"' }));
  }
  return checkList((file.value as { phrases: unknown }).phrases);
}

/** Which brackets of a JSON text are too many to be read in no time; undefined where none are. */
function bracketsBeyond(text: string): { found: string; expected: number } | undefined {
  let all = 0;
  let depth = 0;
  let isQuoted = false;
  for (let i = 0; i < text.length; i++) {
    const letter = text[i];
    if (letter === '"') isQuoted = !isQuoted;
    else if (isQuoted) i += letter === '\\' ? 1 : 0;
    else if (letter === ']' || letter === '}') depth--;
    else if (letter === '[' || letter === '{') {
      if (++depth > MOST_NESTED)
        return { found: `over ${MOST_NESTED} brackets within each other`, expected: MOST_NESTED };
      if (++all > MOST_BRACKETS)
        return { found: `over ${MOST_BRACKETS} brackets`, expected: MOST_BRACKETS };
    }
  }
  return undefined;
}

function checkList(files: unknown): Result<readonly Phrase[], PhraseError> {
  if (!Array.isArray(files))
    return bad(
      phraseError('WRONG_TYPE', 'phrases', { found: inputText(files), expected: 'a list' }),
    );
  if (files.length === 0) return bad(phraseError('NO_ENTRY', 'phrases'));
  if (files.length > MOST_PHRASES) {
    const facts = { found: files.length, things: 'phrases', expected: MOST_PHRASES };
    return bad(phraseError('TOO_MANY', 'phrases', facts));
  }
  const phrases: Phrase[] = [];
  const errors: PhraseError[] = [];
  for (const [i, file] of (files as readonly unknown[]).entries()) {
    const phrase = checkPhrase(file);
    if (phrase.ok) phrases.push(phrase.value);
    else errors.push(...phrase.errors.map((error) => inList(i, error)));
    if (errors.length >= MOST_ERRORS) break;
  }
  return errors.length > 0 ? bad(...errors.slice(0, MOST_ERRORS)) : good(phrases);
}

const isObject = (value: unknown): value is object =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function inList(index: number, error: PhraseError): PhraseError {
  const inside = error.place === '' ? '' : `.${error.place}`;
  return { ...error, place: `phrases[${index}]${inside}` };
}

/**
 * The text of a file for phrases: of one as its own file is, of several a list of such; `parsePhrases` reads the same
 * phrases back.
 *
 * @param phrases at least one, at most MOST_PHRASES
 * @example parsePhrases(writePhrases([trustPhrase('{ "title": "Slip", "meter": "4/4", "tempoBpm": 90, "subdivision": 4, "grouping": "R L K", "layers": [{ "name": "Sticking" }] }')])).value.length // => 1
 */
export function writePhrases(phrases: readonly Phrase[]): string {
  const texts = phrases.map(writePhrase);
  if (texts.length === 1) return texts[0]!;
  return `{\n"phrases": [\n${texts.map((text) => text.trimEnd()).join(',\n')}\n]\n}\n`;
}

/** The same without a space that is not needed, where every character counts. */
export function writeBriefly(phrases: readonly Phrase[]): string {
  const files = phrases.map((phrase) => draftFile(draftOf(phrase)));
  return JSON.stringify(files.length === 1 ? files[0] : { phrases: files });
}
