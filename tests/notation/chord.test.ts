import metadata from '@vexflow-fonts/leland/metadata.json';
import { describe, expect, it } from 'vitest';
import { farSide, HEAD_HALF, STEM_FROM } from '../../src/notation/chord';
import { GLYPH } from '../../src/notation/notehead';

describe('heads on a stem', () => {
  it('heads too near each other stand on either side of the stem', () => {
    expect(farSide([6, 5, 4])).toEqual([false, true, false]);
    expect(farSide([1, 1])).toEqual([true, false]);
    expect(farSide([5, 1, -3])).toEqual([false, false, false]);
  });

  // The font's published metadata, staff spaces.
  it('stems stand where the font has its anchors', () => {
    const anchors = metadata.glyphsWithAnchors as unknown as Record<
      string,
      { stemUpSE: [number, number] }
    >;
    const heads = [
      [GLYPH.head, 'noteheadBlack'],
      [GLYPH.x, 'noteheadXBlack'],
      [GLYPH.circleX, 'noteheadCircleX'],
      [GLYPH.diamond, 'noteheadDiamondBlack'],
      [GLYPH.plus, 'noteheadPlusBlack'],
      [GLYPH.square, 'noteheadSquareBlack'],
    ] as const;
    for (const [glyph, name] of heads) {
      const [x, y] = anchors[name]!.stemUpSE;
      expect(STEM_FROM[glyph], name).toBe(y);
      expect(Math.abs(x / 2 - HEAD_HALF), name).toBeLessThan(0.05);
    }
  });
});
