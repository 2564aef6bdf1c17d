import { describe, expect, it } from 'vitest';
import { swingRatio } from '../../src/score/swing-ratio';
import { chance } from '../../src/time/chance';

const SEED = 20_262;

describe(`swing ratio, seed ${SEED}`, () => {
  it('covers the truth in 95 of 100 takes or about', () => {
    const { normal } = chance(SEED);
    const strokes = (count: number, meanMs: number) =>
      Array.from({ length: count }, () => meanMs + 15 * normal());
    const truth = (0.5 + 40 / 500) / (0.5 - 40 / 500);
    let covered = 0;
    for (let run = 0; run < 1000; run++) {
      const { interval } = swingRatio({
        beatMs: 500,
        writtenShare: 0.5,
        onbeatMs: strokes(20, -12),
        offbeatMs: strokes(16, 28),
      })!;
      if (interval.lower <= truth && truth <= interval.upper) covered++;
    }
    // Four standard errors of a share of 0.95 in 1000.
    expect(covered / 1000).toBeGreaterThan(0.95 - 0.0276);
    expect(covered / 1000).toBeLessThan(0.95 + 0.0276);
  });

  it('does not change when everything is played late', () => {
    const played = {
      beatMs: 400,
      writtenShare: 2 / 3,
      onbeatMs: [1, 2, 3, 9],
      offbeatMs: [-9, 4, 5, 6],
    };
    const late = {
      ...played,
      onbeatMs: played.onbeatMs.map((ms) => ms + 20),
      offbeatMs: played.offbeatMs.map((ms) => ms + 20),
    };
    expect(swingRatio(late)!.ratio).toBeCloseTo(swingRatio(played)!.ratio, 12);
  });

  it('needs four strokes of either kind', () => {
    const played = (on: number, off: number) =>
      swingRatio({
        beatMs: 500,
        writtenShare: 0.5,
        onbeatMs: Array.from({ length: on }, () => 0),
        offbeatMs: Array.from({ length: off }, () => 0),
      });
    expect(played(4, 4)).toEqual({ ratio: 1, interval: { lower: 1, upper: 1 } });
    expect([played(3, 4), played(4, 3)]).toEqual([undefined, undefined]);
  });

  it.each([
    [-250, undefined],
    [-249, 1 / 499],
    [249, 499],
    [250, undefined],
  ])('an off-beat %i ms from the middle of a beat of 500 ms: %d', (ms, ratio) => {
    const offbeatMs = [ms, ms, ms, ms];
    const found = swingRatio({ beatMs: 500, writtenShare: 0.5, onbeatMs: [0, 0, 0, 0], offbeatMs });
    if (ratio === undefined) expect(found).toBeUndefined();
    else expect(found!.ratio).toBeCloseTo(ratio, 9);
  });

  // Four and four values of variance 4/3: by Welch 6 degrees of freedom, and the two-sided 95 % point of
  // Student's t with 6 degrees is 2.447 in any table; 2.447·√(2/3) = 1.998.
  it("has Welch's interval", () => {
    const offsets = [-1, 1, -1, 1];
    const found = swingRatio({
      beatMs: 500,
      writtenShare: 0.5,
      onbeatMs: offsets,
      offbeatMs: offsets,
    })!;
    expect(found.interval.lower).toBeCloseTo((250 - 1.998) / (250 + 1.998), 5);
    expect(found.interval.upper).toBeCloseTo((250 + 1.998) / (250 - 1.998), 5);
  });

  it('says nothing of too few strokes, nor where the off-beat may lie outside the beat', () => {
    const few = { beatMs: 500, writtenShare: 0.5, onbeatMs: [0, 0, 0], offbeatMs: [0, 0, 0, 0] };
    expect(swingRatio(few)).toBeUndefined();
    const wild = { ...few, onbeatMs: [0, 0, 0, 0], offbeatMs: [-500, 500, -400, 400] };
    expect(swingRatio(wild)).toBeUndefined();
    // Shares of 0.1 and 0.9 with a half-width of 0.22.
    for (const ms of [-200, 200]) {
      const offbeatMs = [ms - 60, ms + 60, ms - 60, ms + 60];
      expect(swingRatio({ ...wild, offbeatMs })).toBeUndefined();
    }
  });
});
