import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { PICTURE_SIZE } from '../../src/view/screens/help/guide/picture-size';
import { CHAPTER_IDS } from '../../src/view/shell/route';

const FOLDER = 'src/view/screens/help/guide/pictures';
/** What one picture may take, bytes. Chosen: a chapter is there in a second on a slow line. */
const MOST_BYTES = 60_000;

/** Width and height of a WebP file with an extended header: RFC 9649, 2.7. */
function sizeOf(file: Buffer) {
  expect(file.toString('latin1', 0, 4) + file.toString('latin1', 8, 16)).toBe('RIFFWEBPVP8X');
  return { width: file.readUIntLE(24, 3) + 1, height: file.readUIntLE(27, 3) + 1 };
}

describe('the pictures of the guide', () => {
  const names = CHAPTER_IDS.flatMap((id) =>
    ['light', 'dark'].map((theme) => `${id}-${theme}.webp`),
  );

  it('are one a chapter and theme, and no others', () => {
    expect(readdirSync(FOLDER).toSorted()).toEqual(names.toSorted());
  });

  it.each(names)('%s has its size and is small', (name) => {
    const file = readFileSync(`${FOLDER}/${name}`);
    expect(file.length).toBeLessThanOrEqual(MOST_BYTES);
    expect(sizeOf(file)).toEqual({
      width: 2 * PICTURE_SIZE.width,
      height: 2 * PICTURE_SIZE.height,
    });
  });
});
