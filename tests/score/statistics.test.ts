import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { contrastDb, contrastOfCounts, velocityCounts } from '../../src/score/contrast';
import { separation } from '../../src/score/separation';
import { robustSpread, spread } from '../../src/score/statistics/spread';
import { FULL_PAIRS, theilSen } from '../../src/score/statistics/theil-sen';
import { wilson } from '../../src/score/statistics/wilson';
import { runCount } from '../run-count';

const velocities = fc.array(fc.integer({ min: 1, max: 127 }), { minLength: 1, maxLength: 30 });

describe('separation', () => {
  it('is undefined without both groups', () => {
    expect(separation([], [40])).toBeUndefined();
    expect(separation([40], [])).toBeUndefined();
  });

  it('lawComplement: swapping the groups gives the rest to one', () => {
    fc.assert(
      fc.property(velocities, velocities, (a, b) => {
        expect(separation(a, b)! + separation(b, a)!).toBeCloseTo(1, 12);
      }),
    );
  });

  it('lawDefinition: counts of pairs won, ties one half', () => {
    fc.assert(
      fc.property(velocities, velocities, (a, b) => {
        const won = a.flatMap((x) => b.map((y) => (x > y ? 1 : x === y ? 0.5 : 0) as number));
        const share = won.reduce((sum, one) => sum + one, 0) / won.length;
        expect(separation(a, b)).toBeCloseTo(share, 12);
      }),
    );
  });
});

describe('contrast', () => {
  it('lawGain: a pad that is k times as sensitive shows the same contrast', () => {
    fc.assert(
      fc.property(
        velocities,
        velocities,
        fc.double({ min: 0.2, max: 5, noNaN: true }),
        (a, g, k) => {
          const scaled = contrastDb(
            a.map((v) => v * k),
            g.map((v) => v * k),
          );
          expect(scaled).toBeCloseTo(contrastDb(a, g)!, 9);
        },
      ),
    );
  });

  it('is undefined without both levels, negative when inverted', () => {
    expect(contrastDb([], [40])).toBeUndefined();
    expect(contrastDb([100], [])).toBeUndefined();
    expect(contrastDb([30], [110])).toBeLessThan(-20);
  });

  it('lawCounted: counted by velocity it is the same, whatever the order', () => {
    const some = fc.array(fc.integer({ min: 1, max: 127 }), { maxLength: 30 });
    fc.assert(
      fc.property(some, some, (accents, ghosts) => {
        const whole = contrastDb(accents, ghosts);
        const counted = contrastOfCounts(velocityCounts(accents), velocityCounts(ghosts));
        if (whole === undefined) expect(counted).toBeUndefined();
        else expect(counted).toBeCloseTo(whole, 9);
      }),
    );
  });

  it('is not moved by one stray ghost', () => {
    expect(contrastDb([110, 110, 110], [30, 30, 30, 30, 127])).toBe(
      contrastDb([110, 110, 110], [30, 30, 30, 30, 30]),
    );
  });
});

describe('Wilson interval', () => {
  const share = fc
    .integer({ min: 1, max: 500 })
    .chain((n) => fc.tuple(fc.integer({ min: 0, max: n }), fc.constant(n)));

  it('lawBounds: inside 0 and 1, around the share, narrower with more notes', () => {
    fc.assert(
      fc.property(share, ([k, n]) => {
        const { lower, upper } = wilson(k, n)!;
        expect(lower).toBeGreaterThanOrEqual(0);
        expect(upper).toBeLessThanOrEqual(1);
        expect(lower).toBeLessThanOrEqual(k / n);
        expect(upper).toBeGreaterThanOrEqual(k / n);
        const twice = wilson(2 * k, 2 * n)!;
        expect(twice.upper - twice.lower).toBeLessThan(upper - lower);
      }),
    );
  });

  it('lawMonotone: one more as written never lowers a bound', () => {
    fc.assert(
      fc.property(share, ([k, n]) => {
        fc.pre(k < n);
        expect(wilson(k + 1, n)!.lower).toBeGreaterThan(wilson(k, n)!.lower);
        expect(wilson(k + 1, n)!.upper).toBeGreaterThan(wilson(k, n)!.upper);
      }),
    );
  });

  it('lawMirror: the faults have the mirrored interval', () => {
    fc.assert(
      fc.property(share, ([k, n]) => {
        expect(wilson(n - k, n)!.upper).toBeCloseTo(1 - wilson(k, n)!.lower, 12);
      }),
    );
  });

  it('has no answer for nothing, and refuses a share that is none', () => {
    expect(wilson(0, 0)).toBeUndefined();
    expect(() => wilson(3, 2)).toThrow(new RangeError('3 of 2 is no share'));
    expect(() => wilson(-1, 2)).toThrow(new RangeError('-1 of 2 is no share'));
  });

  it('ends exactly at 0 for nothing and at 1 for everything', () => {
    for (let n = 1; n <= 100; n++) {
      expect(wilson(0, n)!.lower).toBe(0);
      expect(wilson(n, n)!.upper).toBe(1);
    }
  });
});

describe('spread', () => {
  it('has no answer for one value', () => {
    expect([spread([]), spread([5]), robustSpread([]), robustSpread([5])]).toEqual([
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
  });

  it('lawScale: both spreads scale with the values', () => {
    const values = fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 2, maxLength: 30 });
    fc.assert(
      fc.property(values, fc.integer({ min: -9, max: 9 }), (list, k) => {
        const scaled = list.map((value) => value * k);
        expect(spread(scaled)).toBeCloseTo(Math.abs(k) * spread(list)!, 6);
        expect(robustSpread(scaled)).toBeCloseTo(Math.abs(k) * robustSpread(list)!, 6);
      }),
    );
  });
});

describe('Theil-Sen', () => {
  it('has no answer unless two points differ in x', () => {
    expect(theilSen([])).toBeUndefined();
    expect(theilSen([{ x: 1, y: 1 }])).toBeUndefined();
    expect(
      theilSen([
        { x: 1, y: 1 },
        { x: 1, y: 5 },
      ]),
    ).toBeUndefined();
  });

  const points = fc.array(
    fc.record({ x: fc.integer({ min: 0, max: 500 }), y: fc.integer({ min: -99, max: 99 }) }),
    { minLength: 2, maxLength: FULL_PAIRS * 2 },
  );

  it('lawTilt: adding a line adds its slope, below the cap and above it', () => {
    fc.assert(
      fc.property(points, fc.integer({ min: -5, max: 5 }), (list, tilt) => {
        fc.pre(list.some(({ x }) => x !== list[0]!.x));
        const slope = theilSen(list);
        const tilted = theilSen(list.map(({ x, y }) => ({ x, y: y + tilt * x })));
        if (slope === undefined) expect(tilted).toBeUndefined();
        else expect(tilted).toBeCloseTo(slope + tilt, 9);
      }),
      { numRuns: runCount(40) },
    );
  });

  it('pairs every point with every other up to the cap, and with the one half the series later above', () => {
    // Two flat halves, the second as high as half the series is long: from one half to the other the
    // slope of points half a series apart is 1, and within a half it is 0.
    const halves = (n: number) => {
      const half = Math.ceil(n / 2);
      return Array.from({ length: n }, (_, x) => ({ x, y: x < half ? 0 : half }));
    };
    expect(theilSen(halves(FULL_PAIRS))).toBeLessThan(0.6);
    expect(theilSen(halves(FULL_PAIRS + 1))).toBe(1);
  });

  it('is the same whatever the order, with two points at every x, above the cap too', () => {
    const list = Array.from({ length: FULL_PAIRS + 2 }, (_, i) => ({
      x: i >> 1,
      y: ((i * 37) % 101) - 50,
    }));
    const turned = theilSen(list.toReversed());
    expect(theilSen(list)).toBe(turned);
    const mixed = [...list.filter((_, i) => i % 3 === 0), ...list.filter((_, i) => i % 3 > 0)];
    expect(theilSen(mixed)).toBe(turned);
  });

  it.each([FULL_PAIRS, FULL_PAIRS + 1, 5000])(
    'finds the slope under %i points a fifth wild',
    (n) => {
      const list = Array.from({ length: n }, (_, i) => ({
        x: i,
        y: i % 5 === 0 ? 1000 * ((i % 3) - 1) : 0.25 * i + ((i * 7) % 11) - 5,
      }));
      expect(Math.abs(theilSen(list)! - 0.25)).toBeLessThan(0.03);
    },
  );
});
