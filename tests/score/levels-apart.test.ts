import { describe, expect, it } from 'vitest';
import { levelsApart } from '../../src/score/levels-apart';
import { chance } from '../../src/time/chance';

const SEED = 515;

describe('levels of a pad', () => {
  it('plainly apart: boundaries and no warning', () => {
    const found = levelsApart('snare', {
      ghosts: [18, 25, 30, 22],
      taps: [60, 66, 70, 71],
      accents: [100, 112, 108, 119],
    })!;
    expect(found.boundaries).toEqual({ ghostMax: 44, accentMin: 86 });
    expect(found.ghostsFromTaps).toEqual({ overlap: 0, separation: 1 });
    expect(found.warnings).toEqual([]);
  });

  // Accents 70 90 80 60 over ghosts 50 65 40 70: U = 13.5 of 16, area 0.84375 [C].
  it('mixed: the share on the wrong side and the area under the ROC curve, with the setting to try', () => {
    const found = levelsApart('ride edge', {
      ghosts: [10, 12, 14, 16],
      taps: [50, 65, 40, 70],
      accents: [70, 90, 80, 60],
    })!;
    expect(found.tapsFromAccents.separation).toBe(0.84375);
    expect(found.tapsFromAccents.overlap).toBe(2 / 8);
    expect(found.warnings).toHaveLength(1);
    expect(found.warnings[0]).toMatch(/“ride edge”.*taps and accents.*25 %.*velocity curve/);
  });

  it('the wrong way round: no boundaries, and said so', () => {
    const found = levelsApart('snare', { ghosts: [100], taps: [60], accents: [20] })!;
    expect(found.boundaries).toBeUndefined();
    expect(found.warnings[0]).toContain('cannot be parted');
  });

  const times = (count: number, velocity: number) => Array.from({ length: count }, () => velocity);

  it.each([
    // A cut on either side of 60 puts as many strokes on the wrong side as there are of one level.
    ['2 of 16 strokes on the wrong side, separation 0.969', 8, 2, 0],
    ['6 of 40 strokes on the wrong side, separation 0.955', 20, 6, 1],
  ])('%s', (_, of, mixed, warnings) => {
    const found = levelsApart('snare', {
      ghosts: [...times(of - mixed, 20), ...times(mixed, 60)],
      taps: [...times(of - mixed, 70), ...times(mixed, 60)],
      accents: [120],
    })!;
    expect(found.ghostsFromTaps.overlap).toBe(mixed / (2 * of));
    expect(found.warnings).toHaveLength(warnings);
  });

  it.each([
    ['19 of 20 pairs the right way round are enough', [60, 64, 66, 68, 70], 0],
    ['15 of 16 are not', [60, 64, 66, 68], 1],
  ])('%s', (_, taps, warnings) => {
    const found = levelsApart('snare', { ghosts: [10, 12, 14, 62], taps, accents: [120] })!;
    expect(found.ghostsFromTaps.overlap).toBeLessThanOrEqual(0.125);
    expect(found.warnings).toHaveLength(warnings);
  });

  it('an accent at its boundary is on the right side', () => {
    const found = levelsApart('snare', { ghosts: [20], taps: [60, 94], accents: [95, 110] })!;
    expect(found.boundaries!.accentMin).toBe(95);
    expect(found.tapsFromAccents.overlap).toBe(0);
  });

  it('the wrong way round: a warning for the pad and one for each pair of levels', () => {
    const { warnings } = levelsApart('snare', { ghosts: [100], taps: [60], accents: [20] })!;
    expect(
      warnings.map((text) => /ghosts and taps|taps and accents|cannot/.exec(text)![0]),
    ).toEqual(['cannot', 'ghosts and taps', 'taps and accents']);
    expect(warnings[1]).toContain('no boundary parts them (separation 0.00)');
  });

  it('say nothing when a level was not played', () => {
    expect(levelsApart('snare', { ghosts: [], taps: [60], accents: [90] })).toBeUndefined();
    expect(levelsApart('snare', { ghosts: [20], taps: [], accents: [90] })).toBeUndefined();
    expect(levelsApart('snare', { ghosts: [20], taps: [60], accents: [] })).toBeUndefined();
  });

  it(`the boundary is hardly ever far from the best one, with eight strokes each, seed ${SEED}`, () => {
    const { normal } = chance(SEED);
    const eight = (mean: number) =>
      Array.from({ length: 8 }, () => Math.min(127, Math.max(1, Math.round(mean + 7 * normal()))));
    let far = 0;
    for (let run = 0; run < 500; run++) {
      const found = levelsApart('snare', {
        ghosts: eight(25),
        taps: eight(65),
        accents: eight(108),
      })!;
      // Between two normal levels of one spread the best cut is half-way: 45 and 86.5.
      const { ghostMax, accentMin } = found.boundaries!;
      if (Math.abs(ghostMax - 45) > 10 || Math.abs(accentMin - 87) > 10) far++;
      expect(found.warnings).toEqual([]);
    }
    expect(far).toBeLessThan(25);
  });
});
