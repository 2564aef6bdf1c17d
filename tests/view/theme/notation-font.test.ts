import metadata from '@vexflow-fonts/leland/metadata.json';
import { beforeAll, describe, expect, it } from 'vitest';
import { GLYPH } from '../../../src/notation/notehead';
import { loadLaneFonts, NOTATION_FAMILY } from '../../../src/view/theme/notation-font';
import '../../../src/view/theme/theme.css';

/** Names of the code points in SMuFL's glyphnames.json (standards: SMuFL 1.4). */
const SMUFL_NAMES = {
  head: 'noteheadBlack',
  x: 'noteheadXBlack',
  circleX: 'noteheadCircleX',
  diamond: 'noteheadDiamondBlack',
  plus: 'noteheadPlusBlack',
  square: 'noteheadSquareBlack',
  parenthesisLeft: 'noteheadParenthesisLeft',
  parenthesisRight: 'noteheadParenthesisRight',
  accent: 'articAccentAbove',
  closed: 'brassMuteClosed',
  open: 'brassMuteOpen',
} as const satisfies Record<keyof typeof GLYPH, string>;

describe('the notation font', () => {
  beforeAll(loadLaneFonts);

  it('is loaded from our own origin', () => {
    const face = [...document.fonts].find(({ family }) => family.includes(NOTATION_FAMILY));
    expect(face?.status).toBe('loaded');
    const fonts = performance.getEntriesByType('resource').filter((r) => r.name.includes('woff2'));
    expect(fonts.length).toBeGreaterThan(0);
    for (const { name } of fonts) expect(new URL(name).origin).toBe(location.origin);
  });

  // The font's own published metadata: bounding boxes in staff spaces, four to the em.
  it.each(Object.entries(SMUFL_NAMES))('draws %s as its metadata measures %s', (key, name) => {
    const ctx = document.createElement('canvas').getContext('2d')!;
    ctx.font = `400px "${NOTATION_FAMILY}"`;
    const drawn = ctx.measureText(GLYPH[key as keyof typeof GLYPH]);
    const boxes = metadata.glyphBBoxes as Record<string, { bBoxNE: number[]; bBoxSW: number[] }>;
    const { bBoxNE, bBoxSW } = boxes[name]!;
    const tenthOfASpace = 0.1;
    const measured = [
      [drawn.actualBoundingBoxRight, bBoxNE[0]!],
      [drawn.actualBoundingBoxAscent, bBoxNE[1]!],
      [drawn.actualBoundingBoxDescent, -bBoxSW[1]!],
    ] as const;
    for (const [px, spaces] of measured)
      expect(Math.abs(px / 100 - spaces)).toBeLessThan(tenthOfASpace);
  });
});
