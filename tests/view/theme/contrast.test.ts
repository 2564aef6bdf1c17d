import axe from 'axe-core';
import { afterEach, describe, expect, it } from 'vitest';
import '../../../src/view/theme/theme.css';
import { onThemeChange, readPalette, type Palette } from '../../../src/view/theme/palette';

const { Color, getContrast } = (
  axe as unknown as {
    commons: {
      color: {
        Color: new (r: number, g: number, b: number) => unknown;
        getContrast: (a: unknown, b: unknown) => number;
      };
    };
  }
).commons.color;

const rgb = (css: string): [number, number, number] => {
  const [r, g, b] = (css.match(/[\d.]+/g) ?? []).map(Number);
  return [r!, g!, b!];
};
const contrast = (a: string, b: string) => getContrast(new Color(...rgb(a)), new Color(...rgb(b)));

function paletteOf(theme: 'light' | 'dark'): Palette {
  document.documentElement.dataset['theme'] = theme;
  return readPalette(document.body);
}

afterEach(() => {
  delete document.documentElement.dataset['theme'];
});

/**
 * Severity 1.0 matrices of Machado, Oliveira & Fernandes, "A physiologically-based model for
 * simulation of color vision deficiency", IEEE TVCG 15(6), 2009 [F in public colour code], applied to linear RGB.
 */
const MACHADO = {
  protanopia: [
    0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998,
  ],
  deuteranopia: [
    0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.01182, 0.04294, 0.968881,
  ],
  tritanopia: [
    1.255528, -0.076749, -0.178779, -0.078411, 0.930809, 0.147602, 0.004733, 0.691367, 0.3039,
  ],
} as const;

/** Seen through a matrix, then CIE 1976 L*a*b* for D65 (IEC 61966-2-1 primaries) [M]. */
function labSeen(css: string, m: readonly number[]): number[] {
  const linear = rgb(css).map((v) =>
    v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4,
  );
  const [r, g, b] = [0, 3, 6].map((row) =>
    Math.min(
      1,
      Math.max(0, m[row]! * linear[0]! + m[row + 1]! * linear[1]! + m[row + 2]! * linear[2]!),
    ),
  ) as [number, number, number];
  const f = (t: number) => (t > 216 / 24389 ? Math.cbrt(t) : (24389 / 27 / 116) * t + 16 / 116);
  const x = f((0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.9505);
  const y = f(0.2126 * r + 0.7152 * g + 0.0722 * b);
  const z = f((0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.089);
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

const distance = (a: readonly number[], b: readonly number[]) =>
  Math.hypot(...a.map((v, i) => v - b[i]!));

describe.each(['light', 'dark'] as const)('the %s theme', (theme) => {
  // WCAG 2.2 SC 1.4.3: 4.5:1 for text; SC 1.4.11: 3:1 for graphics. Contrast computed by axe-core.
  it('has text that reads on its paper', () => {
    const palette = paletteOf(theme);
    for (const text of [palette.ink, palette.inkSoft])
      expect(contrast(text, palette.paper)).toBeGreaterThanOrEqual(4.5);
  });

  it('keeps early, late, ink and spent notes at 3:1 or more on paper and in the hit window', () => {
    const { early, late, ink, spent, paper, window } = paletteOf(theme);
    for (const mark of [early, late, ink, spent])
      for (const ground of [paper, window])
        expect(contrast(mark, ground), `${mark} on ${ground}`).toBeGreaterThanOrEqual(3);
    for (const mark of [early, late, ink])
      expect(contrast(mark, paletteOf(theme).tolerance)).toBeGreaterThanOrEqual(3);
  });

  it.each(Object.entries(MACHADO))('tells early from late under %s', (_, matrix) => {
    const { early, late } = paletteOf(theme);
    // A CIE 1976 difference of 2.3 is just noticeable (Mahy et al. 1994 [M]); ten times that is asked.
    expect(distance(labSeen(early, matrix), labSeen(late, matrix))).toBeGreaterThan(23);
  });
});

describe('onThemeChange', () => {
  it('reports a chosen theme and stops when told to', async () => {
    let calls = 0;
    const stop = onThemeChange(() => calls++);
    document.documentElement.dataset['theme'] = 'dark';
    await new Promise((done) => setTimeout(done));
    expect(calls).toBe(1);
    stop();
    document.documentElement.dataset['theme'] = 'light';
    await new Promise((done) => setTimeout(done));
    expect(calls).toBe(1);
  });
});

it('knows the published contrast of #767676 on white, 4.54 (WebAIM, the usual grey of the 4.5 limit [M])', () => {
  expect(contrast('rgb(118, 118, 118)', 'rgb(255, 255, 255)')).toBeCloseTo(4.54, 1);
});
