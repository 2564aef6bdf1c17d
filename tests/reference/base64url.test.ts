import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { base64urlBytes, base64urlText } from '../../src/phrase/file/base64url';

/** RFC 4648, section 10, test vectors of BASE64; base64url leaves out the padding that a known length makes needless (5). */
const RFC_4648 = [
  ['', ''],
  ['f', 'Zg=='],
  ['fo', 'Zm8='],
  ['foo', 'Zm9v'],
  ['foob', 'Zm9vYg=='],
  ['fooba', 'Zm9vYmE='],
  ['foobar', 'Zm9vYmFy'],
] as const;

/** RFC 4648, table 2: what differs from base64. */
const LAST_TWO = [
  [[0xfb, 0xff], '-_8'],
  [[0xff, 0xef, 0xbe], '_---'],
] as const;

describe('base64url', () => {
  it.each(RFC_4648)('%j is that of RFC 4648, section 10', (plain, padded) => {
    const text = padded.replaceAll('=', '');
    const bytes = Uint8Array.from(Buffer.from(plain, 'ascii'));
    expect(base64urlText(bytes)).toBe(text);
    expect(base64urlBytes(text)).toEqual(bytes);
  });

  it.each(LAST_TWO)('%j has the letters that are safe in an address', (bytes, text) => {
    expect(base64urlText(Uint8Array.from(bytes))).toBe(text);
    expect(base64urlBytes(text)).toEqual(Uint8Array.from(bytes));
  });

  it('is what Node makes of the same bytes, and reads them back', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
        const text = Buffer.from(bytes).toString('base64url');
        expect(base64urlText(bytes)).toBe(text);
        expect(base64urlBytes(text)).toEqual(Uint8Array.from(bytes));
      }),
    );
  });

  // RFC 4648, 3.3 (letters outside the alphabet) and 3.5 (bits that no byte has).
  it.each(['Z', 'Zm9vY', 'Zm 9v', 'Zm9+', 'Zm9/', 'Zg==', 'Zh', 'Zm9vé'])('refuses %j', (text) => {
    expect(base64urlBytes(text)).toBeUndefined();
  });
});
