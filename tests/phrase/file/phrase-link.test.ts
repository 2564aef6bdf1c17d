import { deflateRawSync, inflateRawSync } from 'node:zlib';
import * as fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { isLink, readLink, writeLink } from '../../../src/phrase/file/phrase-link';
import { trustPhrase } from '../../../src/phrase/file/parse-phrase';
import type { Phrase } from '../../../src/phrase/model/phrase';
import { RAW_DEFLATE } from '../../../src/practice/files/raw-deflate';
import { runCount } from '../../run-count';
import { arbitraryPhrase } from '../arbitrary-phrase';
import { libraryPhrases } from '../library-phrases';
import { SOUND } from './broken-phrases';
import { ZLIB } from './zlib-packing';

const ADDRESS = 'http://localhost:4173/';
const library = libraryPhrases().map(({ text }) => trustPhrase(text));
const slip = trustPhrase(JSON.stringify(SOUND));

async function linkTo(phrases: readonly Phrase[], packing = RAW_DEFLATE): Promise<string> {
  const link = await writeLink(phrases, ADDRESS, packing);
  if (!link.ok) throw new Error(link.errors[0]!.message);
  return link.value;
}
const payloadOf = (link: string) => link.slice(`${ADDRESS}#open/p1.`.length);
const packed = (text: string) => `${ADDRESS}#open/p1.${deflateRawSync(text).toString('base64url')}`;
async function codesOf(text: string, packing = RAW_DEFLATE) {
  const read = await readLink(text, packing);
  return read.ok ? [] : read.errors.map(({ code }) => code);
}

describe('a link to phrases', () => {
  it('lawLinkRoundTrip: carries them whole, packed by the browser or by zlib (RFC 1951)', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(arbitraryPhrase(), { minLength: 1, maxLength: 3 }),
        async (phrases) => {
          for (const [by, reader] of [
            [RAW_DEFLATE, ZLIB],
            [ZLIB, RAW_DEFLATE],
          ] as const)
            expect(await readLink(await linkTo(phrases, by), reader)).toEqual({
              ok: true,
              value: phrases,
            });
        },
      ),
      { numRuns: runCount(200) },
    );
  });

  it('is the address, a fragment of its own and the file of the phrases without spaces', async () => {
    const link = await linkTo([slip]);
    expect(link.startsWith(`${ADDRESS}#open/p1.`)).toBe(true);
    const payload = Buffer.from(payloadOf(link), 'base64url');
    expect(JSON.parse(inflateRawSync(payload).toString())).toEqual(SOUND);
    const under = await writeLink(
      [slip],
      'https://harbour.example/drums/#phrases/quay',
      RAW_DEFLATE,
    );
    expect(under).toEqual({
      ok: true,
      value: `https://harbour.example/drums/#open/p1.${payloadOf(link)}`,
    });
  });

  it('keeps every letter of a title', async () => {
    const titled = { ...slip, title: 'Größe ☃ 😀 <b>"Ebb"</b> &amp; \\' };
    expect(await readLink(await linkTo([titled]), ZLIB)).toEqual({ ok: true, value: [titled] });
  });

  it('has about 400 characters for a phrase of the library, and is told in the midst of others', async () => {
    const lengths = await Promise.all(
      library.map(async (phrase) => payloadOf(await linkTo([phrase])).length),
    );
    expect(Math.max(...lengths)).toBeLessThan(700);
    const link = await linkTo([slip]);
    for (const text of [
      link,
      link.split('#open/')[1]!,
      `  ${link}\n`,
      `Try this: ${link} (mine)`,
    ]) {
      expect(isLink(text)).toBe(true);
      expect((await readLink(text, ZLIB)).ok).toBe(true);
    }
    for (const text of ['', 'p1.', 'see p1.html', `${ADDRESS}#phrases/quay-steps`, '{"p1.a":1}']) {
      expect(isLink(text)).toBe(false);
      expect(await codesOf(text)).toEqual(['NO_LINK']);
    }
  });

  it.each([RAW_DEFLATE, ZLIB])(
    'that is cut anywhere is told, and nothing is taken from it',
    async (by) => {
      const link = await linkTo([library[0]!]);
      for (let end = link.length - payloadOf(link).length + 1; end < link.length; end++)
        expect(await codesOf(link.slice(0, end), by), String(end)).toEqual(['DAMAGED_LINK']);
    },
  );

  it('of another form is told as one', async () => {
    const link = await linkTo([slip]);
    expect(await codesOf(link.replace('p1.', 'p2.'))).toEqual(['NEWER_LINK']);
    expect(await codesOf(link.replace('p1.', 'p0.'))).toEqual(['DAMAGED_LINK']);
  });

  it('with bytes that are no text is damaged', async () => {
    const payload = deflateRawSync(Buffer.of(0x7b, 0xff, 0x7d)).toString('base64url');
    for (const by of [RAW_DEFLATE, ZLIB])
      expect(await codesOf(`#open/p1.${payload}`, by)).toEqual(['DAMAGED_LINK']);
  });

  it('with a faulty phrase in it names the place', async () => {
    const read = await readLink(packed('{"phrases":[{"title":7}]}'), RAW_DEFLATE);
    expect(read.ok ? [] : read.errors.map(({ place }) => place)).toContain('phrases[0].title');
  });

  it.each([RAW_DEFLATE, ZLIB])('is inflated to 1 MB and no further', async (by) => {
    const padded = (length: number) => packed(JSON.stringify(SOUND).padEnd(length));
    expect(await codesOf(padded(1_000_000), by)).toEqual(['TOO_LARGE']);
    expect(await codesOf(padded(1_000_001), by)).toEqual(['LINK_TOO_LARGE']);
    expect(await codesOf(padded(20_000_000), by)).toEqual(['LINK_TOO_LARGE']);
  });

  it('has so many characters at most', async () => {
    const fits = 'A'.repeat(32_000);
    expect(await codesOf(`#open/p1.${fits}`)).toEqual(['DAMAGED_LINK']);
    expect(await codesOf(`#open/p1.${fits}A`)).toEqual(['LINK_TOO_LARGE']);
    const noise = { deflate: async () => new Uint8Array(24_000) };
    expect((await writeLink([slip], ADDRESS, noise)).ok).toBe(true);
    const more = { deflate: async () => new Uint8Array(24_001) };
    expect(await writeLink([slip], ADDRESS, more)).toMatchObject({
      errors: [{ code: 'TOO_MUCH_FOR_A_LINK' }],
    });
  });

  it.each([
    ['no streams that pack', undefined],
    [
      'none of that format',
      class {
        constructor(format: string) {
          throw new TypeError(`unknown format ${format}`);
        }
      },
    ],
  ])('is told where a browser has %s', async (_, stream) => {
    const link = await linkTo([slip]);
    vi.stubGlobal('CompressionStream', stream);
    vi.stubGlobal('DecompressionStream', stream);
    expect(await RAW_DEFLATE.deflate('x')).toBeUndefined();
    expect(await codesOf(link)).toEqual(['NO_DEFLATE']);
    vi.unstubAllGlobals();
  });

  it('says where it cannot be made or read', async () => {
    const none = { deflate: async () => undefined, inflate: async () => 'not here' as const };
    expect(await writeLink([slip], ADDRESS, none)).toMatchObject({
      errors: [{ code: 'NO_DEFLATE' }],
    });
    expect(await readLink(await linkTo([slip]), none)).toMatchObject({
      errors: [{ code: 'NO_DEFLATE' }],
    });
  });
});
