import jsQR from 'jsqr';
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { trustPhrase } from '../../src/phrase/file/parse-phrase';
import { writeLink } from '../../src/phrase/file/phrase-link';
import { RAW_DEFLATE } from '../../src/practice/files/raw-deflate';
import { codeDrawing } from '../../src/view/hand-out/code-drawing';
import { libraryPhrases } from '../phrase/library-phrases';
import { runCount } from '../run-count';

const PIXELS = 4;

/** The drawing as pixels: its path is made of stretches of one row, `M x y h length v1 h-length z`. */
function pixelsOf({ path, size }: { readonly path: string; readonly size: number }) {
  const width = size * PIXELS;
  const data = new Uint8ClampedArray(width * width * 4).fill(255);
  for (const [, x, y, length] of path.matchAll(/M(\d+) (\d+)h(\d+)v1h-\d+z/g))
    for (let row = Number(y) * PIXELS; row < (Number(y) + 1) * PIXELS; row++)
      for (let at = Number(x) * PIXELS; at < (Number(x) + Number(length)) * PIXELS; at++)
        data.fill(0, 4 * (row * width + at), 4 * (row * width + at) + 3);
  return { data, width };
}

/** Read by jsQR 1.4.0, which shares nothing with what draws. */
function readCode(text: string): string | undefined {
  const { data, width } = pixelsOf(codeDrawing(text));
  return jsQR(data, width, width)?.data;
}

describe('a code for a camera (ISO/IEC 18004)', () => {
  it('is read by a decoder that is not ours: the link of every phrase of the library', async () => {
    for (const { text } of libraryPhrases()) {
      const link = await writeLink([trustPhrase(text)], 'http://localhost:4173/', RAW_DEFLATE);
      expect(link.ok && readCode(link.value)).toBe(link.ok && link.value);
    }
  });

  it('is read up to 1,000 characters', () => {
    const letters = fc.constantFrom(...'ABCXYZabcxyz0189-_');
    const links = fc
      .array(letters, { minLength: 1, maxLength: 970 })
      .map((payload) => `http://localhost:4173/#open/p1.${payload.join('')}`);
    fc.assert(
      fc.property(links, (link) => readCode(link) === link),
      { numRuns: runCount(25) },
    );
    const longest = 'http://localhost:4173/#open/p1.'.padEnd(1000, 'aZ9-');
    expect(readCode(longest)).toBe(longest);
  });

  // ISO/IEC 18004, 6.3.8: four modules. The finder pattern, a dark ring of seven modules, begins right inside (6.3.3).
  it('has a quiet zone of four modules on every side', () => {
    const { path, size } = codeDrawing('harbour');
    const rows = [...path.matchAll(/M(\d+) (\d+)h(\d+)/g)].map((one) => one.slice(1).map(Number));
    const [first] = rows as [number[]];
    expect(first).toEqual([4, 4, 7]);
    expect(Math.max(...rows.map(([x, , length]) => x! + length!))).toBe(size - 4);
    expect(Math.max(...rows.map(([, y]) => y! + 1))).toBe(size - 4);
    // Version 1 has 21 modules a side (ISO/IEC 18004, table 1).
    expect(size).toBe(21 + 8);
  });
});
