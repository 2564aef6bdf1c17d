import { readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arbitraryPhraseFile } from '../arbitrary-phrase';
import { BROKEN_PHRASES, SOUND } from './broken-phrases';
import { libraryPhrases } from '../library-phrases';
import { phraseJsonSchemaText } from './phrase-schema';

const SCHEMA = new URL('../../../shared/schemas/phrase.schema.json', import.meta.url).pathname;

describe('shared/schemas/phrase.schema.json', () => {
  it('is the one the program reads with (vitest --update rewrites it)', async () => {
    await expect(await phraseJsonSchemaText()).toMatchFileSnapshot(SCHEMA);
  });

  describe('read by a JSON Schema validator (ajv)', () => {
    const accepts = new Ajv({ strict: false }).compile(
      JSON.parse(readFileSync(SCHEMA, 'utf8')) as object,
    );

    it('accepts every phrase of the library and every generated one', () => {
      expect(accepts(SOUND)).toBe(true);
      for (const { text } of libraryPhrases()) expect(accepts(JSON.parse(text))).toBe(true);
      fc.assert(fc.property(arbitraryPhraseFile(), (file) => accepts(file)));
    });

    it.each(
      BROKEN_PHRASES.filter(({ byShape }) => byShape).map(
        (b) => [b.code, b.place, b.file] as const,
      ),
    )('rejects %s at %j', (_code, _place, file) => {
      expect(accepts(file)).toBe(false);
    });
  });
});
