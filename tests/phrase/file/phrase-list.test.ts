import { readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parsePhrase } from '../../../src/phrase/file/parse-phrase';
import {
  MOST_PHRASES,
  parsePhrases,
  writeBriefly,
  writePhrases,
} from '../../../src/phrase/file/phrase-list';
import { writePhrase } from '../../../src/phrase/file/write-phrase';
import { placeWords } from '../../../src/phrase/model/place-words';
import { MOST_ERRORS } from '../../../src/phrase/model/phrase-error';
import { arbitraryPhrase } from '../arbitrary-phrase';
import { libraryPhrases } from '../library-phrases';
import { BROKEN_PHRASES, SOUND } from './broken-phrases';
import { phraseListJsonSchemaText } from './phrase-schema';

const SCHEMA = new URL('../../../shared/schemas/phrases.schema.json', import.meta.url).pathname;
const library = libraryPhrases().map(({ text }) => {
  const phrase = parsePhrase(text);
  if (!phrase.ok) throw new Error(text);
  return phrase.value;
});
const errorsOf = (text: string) => {
  const read = parsePhrases(text);
  return read.ok ? [] : read.errors.map(({ code, place }) => `${code} ${place}`.trim());
};
const isWritable = (file: unknown): boolean => {
  try {
    return JSON.stringify(file).length > 0;
  } catch {
    return false;
  }
};
const listOf = (...phrases: unknown[]) => JSON.stringify({ phrases });

describe('a file of phrases', () => {
  it('lawListRoundTrip: reads what was written, one or several, in its order', () => {
    fc.assert(
      fc.property(fc.array(arbitraryPhrase(), { minLength: 1, maxLength: 4 }), (phrases) => {
        for (const write of [writePhrases, writeBriefly])
          expect(parsePhrases(write(phrases))).toEqual({ ok: true, value: phrases });
      }),
    );
  });

  it('of one is the phrase file as it is', () => {
    for (const phrase of library) expect(writePhrases([phrase])).toBe(writePhrase(phrase));
  });

  it('of several holds each as its own file has it', () => {
    const { phrases } = JSON.parse(writePhrases(library)) as { phrases: unknown[] };
    expect(phrases).toEqual(library.map((phrase) => JSON.parse(writePhrase(phrase))));
  });

  it('is read by its published schema (ajv), and as that says', async () => {
    await expect(await phraseListJsonSchemaText()).toMatchFileSnapshot(SCHEMA);
    const schema = JSON.parse(readFileSync(SCHEMA, 'utf8')) as object;
    const accepts = new Ajv({ strict: false }).compile(schema);
    expect(accepts(JSON.parse(writePhrases(library)))).toBe(true);
    for (const { file } of BROKEN_PHRASES.filter(({ byShape }) => byShape))
      expect(accepts({ phrases: [SOUND, file] })).toBe(false);
    for (const file of [{ phrases: [] }, { phrases: {} }, { phrases: [SOUND], more: 1 }])
      expect(accepts(file)).toBe(false);
  });

  // One of them is nested so deep that no text of it can be written here.
  const writable = BROKEN_PHRASES.filter(
    ({ file }) => typeof file === 'object' && isWritable(file),
  );
  it.each(writable)(
    'names the phrase in which there is $code at $place',
    ({ code, place, file }) => {
      const where = `${code} phrases[1]${place === '' ? '' : `.${place}`}`;
      expect(errorsOf(listOf(SOUND, file, SOUND))).toContain(where);
    },
  );

  it.each([
    ['no list', '{ "phrases": 7 }', 'WRONG_TYPE phrases'],
    ['an empty list', '{ "phrases": [] }', 'NO_ENTRY phrases'],
    ['a list in the list', listOf([]), 'WRONG_TYPE phrases[0]'],
    ['files in the list', listOf({ phrases: [SOUND] }), 'SEVERAL_PHRASES phrases[0].phrases'],
    ['another key', JSON.stringify({ phrases: [SOUND], title: 'Ebb' }), 'UNKNOWN_KEY title'],
    ['a prototype', '{ "__proto__": [], "phrases": [] }', 'UNKNOWN_KEY __proto__'],
    ['a text that is cut off', listOf(SOUND).slice(0, -5), 'NOT_JSON'],
    ['nothing', '', 'NOT_JSON'],
    ['a number', '7', 'WRONG_TYPE'],
    ['a thousand brackets within each other', '['.repeat(1000), 'NOT_JSON'],
    ['one more', '['.repeat(1001), 'TOO_LARGE'],
    ['a hundred thousand brackets', `{"phrases":[${'{},'.repeat(99_997)}{}]}`, 'TOO_MANY phrases'],
    ['one bracket more', `{"phrases":[${'{},'.repeat(99_998)}{}]}`, 'TOO_LARGE'],
    ['brackets in a text', JSON.stringify({ title: '["\\'.repeat(1001) }), 'TOO_LONG title'],
  ])('refuses %s', (_, text, error) => {
    expect(errorsOf(text)[0]).toBe(error);
  });

  it('has so many phrases, characters and told errors at most', () => {
    const many = (count: number) => listOf(...Array.from({ length: count }, () => SOUND));
    expect(errorsOf(many(MOST_PHRASES))).toEqual([]);
    expect(errorsOf(many(MOST_PHRASES + 1))).toEqual(['TOO_MANY phrases']);
    expect(errorsOf(listOf(SOUND).padEnd(1_000_000))).toEqual([]);
    expect(errorsOf(listOf(SOUND).padEnd(1_000_001))).toEqual(['TOO_LARGE']);
    expect(errorsOf(listOf(...Array.from({ length: 50 }, () => ({}))))).toHaveLength(MOST_ERRORS);
  });

  it('is told as such where one phrase is wanted', () => {
    const read = parsePhrase(listOf(SOUND, SOUND));
    expect(read.ok ? [] : read.errors.map(({ message }) => message)).toEqual([
      'This file holds a list of phrases, 2 in all, and one is read here; open it in the app and save that one by itself.',
    ]);
  });

  it('says its places in words', () => {
    expect(placeWords('phrases[1].layers[0].name')).toBe('phrase 2, layer 1, "name"');
  });
});
