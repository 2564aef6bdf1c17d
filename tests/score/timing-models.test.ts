import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hodgesLehmann, signedRankCritical } from '../../src/score/hodges-lehmann';
import { longestRunMs } from '../../src/score/interval-runs';
import { lagOne } from '../../src/score/lag-one';
import { swingRatio } from '../../src/score/swing-ratio';
import { FEWEST_INTERVALS, wingKristofferson } from '../../src/score/wing-kristofferson';
import { chance } from '../../src/time/chance';

const SEED = 20_261;

describe(`clock and motor of simulated players, seed ${SEED}`, () => {
  const { normal } = chance(SEED);

  /** Strokes without a click: every interval anew from the clock, every stroke late by its own delay. */
  const selfPaced = (count: number, clockSd: number, motorSd: number) => {
    let before = motorSd * normal();
    return Array.from({ length: count }, () => {
      const delay = motorSd * normal();
      const interval = 500 + clockSd * normal() + delay - before;
      before = delay;
      return interval;
    });
  };

  it.each([
    [15, 5],
    [10, 10],
    [4, 12],
  ])('finds clock %i ms and motor %i ms of a long run', (clock, motor) => {
    const found = wingKristofferson(selfPaced(20_000, clock, motor))!;
    expect(Math.abs(found.clock - clock)).toBeLessThan(1);
    expect(Math.abs(found.motor - motor)).toBeLessThan(1);
  });

  it('says nothing where the tempo wanders', () => {
    let interval = 500;
    const wandering = Array.from({ length: 200 }, () => (interval += normal()));
    expect(wingKristofferson(wandering)).toBeUndefined();
  });

  it('says nothing for a handful of intervals', () => {
    expect(wingKristofferson(selfPaced(FEWEST_INTERVALS - 1, 15, 5))).toBeUndefined();
  });

  it('strokes scattered about a fixed grid give a correlation of one half, negative', () => {
    const offsets = Array.from({ length: 20_000 }, () => 10 * normal());
    const intervals = offsets.slice(1).map((offset, i) => offset - offsets[i]!);
    expect(lagOne(intervals)).toBeCloseTo(-0.5, 1);
  });
});

describe('lag-one correlation', () => {
  const values = fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 3, maxLength: 40 });

  it('lawAffine: neither the zero nor the unit matters', () => {
    fc.assert(
      fc.property(values, fc.integer({ min: -1e6, max: 1e6 }), (list, by) => {
        const found = lagOne(list);
        const moved = lagOne(list.map((value) => 3 * value + by));
        if (found === undefined) expect(moved).toBeUndefined();
        else expect(moved).toBeCloseTo(found, 9);
      }),
    );
  });

  it('lawReversal: backwards it is the same', () => {
    fc.assert(
      fc.property(values, (list) => {
        const found = lagOne(list);
        const back = lagOne([...list].reverse());
        if (found === undefined) expect(back).toBeUndefined();
        else expect(back).toBeCloseTo(found, 9);
      }),
    );
  });

  it('says nothing of values that are all the same, or of two', () => {
    expect(lagOne([7, 7, 7, 7])).toBeUndefined();
    expect(lagOne([1, 2])).toBeUndefined();
  });
});

describe(`swing ratio, seed ${SEED + 1}`, () => {
  it('covers the truth in 95 of 100 takes or about', () => {
    const { normal } = chance(SEED + 1);
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

  it('says nothing of too few strokes, nor where the off-beat may lie outside the beat', () => {
    const few = { beatMs: 500, writtenShare: 0.5, onbeatMs: [0, 0, 0], offbeatMs: [0, 0, 0, 0] };
    expect(swingRatio(few)).toBeUndefined();
    const wild = { ...few, onbeatMs: [0, 0, 0, 0], offbeatMs: [-500, 500, -400, 400] };
    expect(swingRatio(wild)).toBeUndefined();
  });
});

describe(`robust location, seed ${SEED + 2}`, () => {
  it('has an interval that covers at its rate, on even and on heavy-tailed noise', () => {
    const { normal } = chance(SEED + 2);
    let even = 0;
    let heavy = 0;
    for (let run = 0; run < 1000; run++) {
      const noise = Array.from({ length: 28 }, () => normal());
      const tails = noise.map((value) => value / Math.abs(normal()));
      const a = hodgesLehmann(noise)!;
      const b = hodgesLehmann(tails)!;
      if (a.lower <= 0 && 0 <= a.upper) even++;
      if (b.lower <= 0 && 0 <= b.upper) heavy++;
    }
    for (const covered of [even, heavy]) {
      expect(covered / 1000).toBeGreaterThan(0.95 - 0.0276);
      expect(covered / 1000).toBeLessThan(0.95 + 0.0276);
    }
  });

  it('is not moved far by a fifth of wild values', () => {
    const values = [
      ...Array.from({ length: 24 }, (_, i) => i - 11.5),
      900,
      950,
      1000,
      980,
      990,
      970,
    ];
    expect(Math.abs(hodgesLehmann(values)!.location)).toBeLessThan(8);
  });

  it('goes over to the normal approximation without a step', () => {
    const step = signedRankCritical(61) - signedRankCritical(60);
    const before = signedRankCritical(60) - signedRankCritical(59);
    expect(Math.abs(step - before)).toBeLessThanOrEqual(2);
  });
});

describe('the longest run', () => {
  const note = (offsetUs: number | undefined, verdict: 'in time' | 'missed' | 'wrong voice') => ({
    offsetUs,
    verdict,
  });

  it('ends at a missed note and at a wrong voice', () => {
    expect(
      longestRunMs([
        note(1000, 'in time'),
        note(3000, 'in time'),
        note(undefined, 'missed'),
        note(0, 'in time'),
        note(-2000, 'in time'),
        note(500, 'in time'),
        note(0, 'wrong voice'),
        note(0, 'in time'),
      ]),
    ).toEqual([-2, 2.5]);
  });
});
