import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { brownForsythe } from '../../src/score/statistics/brown-forsythe';
import { meanOfUnits } from '../../src/score/cycle-means';
import { equivalent } from '../../src/score/statistics/equivalence';
import { holm } from '../../src/score/statistics/holm';
import { incompleteBeta } from '../../src/score/statistics/incomplete-beta';
import { tQuantile, tTwoSided } from '../../src/score/statistics/student-t';

const pValues = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 20 });
const numbers = fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 2, maxLength: 12 });
const degrees = fc.double({ min: 1, max: 500, noNaN: true });

describe('Holm', () => {
  it('has nothing to adjust in nothing, and leaves one alone', () => {
    expect(holm([])).toEqual([]);
    expect(holm([0.3])).toEqual([0.3]);
  });

  it('lies between the p-value and what Bonferroni makes of it, in the same order', () => {
    fc.assert(
      fc.property(pValues, (values) => {
        const adjusted = holm(values);
        values.forEach((p, i) => {
          expect(adjusted[i]).toBeGreaterThanOrEqual(p);
          expect(adjusted[i]).toBeLessThanOrEqual(Math.min(1, values.length * p));
          values.forEach((q, j) => {
            if (p < q) expect(adjusted[i]).toBeLessThanOrEqual(adjusted[j]!);
            if (p === q) expect(adjusted[i]).toBe(adjusted[j]);
          });
        });
      }),
    );
  });
});

describe('incomplete beta function', () => {
  const parameter = fc.double({ min: 0.1, max: 300, noNaN: true });
  const share = fc.double({ min: 1e-6, max: 1 - 1e-6, noNaN: true });

  it('mirrors', () => {
    fc.assert(
      fc.property(share, parameter, parameter, (x, a, b) => {
        expect(incompleteBeta(x, a, b) + incompleteBeta(1 - x, b, a)).toBeCloseTo(1, 9);
      }),
    );
  });

  // I_x(a, b) = x I_x(a - 1, b) + (1 - x) I_x(a, b - 1), DLMF 8.17.18: across the side on which it is computed too.
  it('obeys its recurrence', () => {
    fc.assert(
      fc.property(share, parameter, parameter, (x, a, b) => {
        const sum = x * incompleteBeta(x, a, b + 1) + (1 - x) * incompleteBeta(x, a + 1, b);
        expect(incompleteBeta(x, a + 1, b + 1)).toBeCloseTo(sum, 9);
      }),
    );
  });

  it('is 0 and 1 at the ends', () => {
    expect([incompleteBeta(0, 2, 3), incompleteBeta(1, 2, 3)]).toEqual([0, 1]);
  });
});

describe("Student's t", () => {
  it('tells a chance and its quantile as inverses', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 0.999, noNaN: true }), degrees, (p, df) => {
        expect(tTwoSided(tQuantile(p / 2, df), df) / p).toBeCloseTo(1, 6);
      }),
    );
  });

  it('refuses degrees that are none', () => {
    const refusal = new RangeError('too few degrees of freedom for t: 0');
    expect(() => tTwoSided(1, 0)).toThrow(refusal);
    expect(() => tQuantile(0.5, 0)).toThrow(refusal);
    expect(() => tTwoSided(1, NaN)).toThrow(RangeError);
  });

  it('has its middle at 0, and no quantile at the ends', () => {
    expect(tQuantile(0.5, 7)).toBe(0);
    for (const share of [0, 1, NaN])
      expect(() => tQuantile(share, 7)).toThrow(new RangeError(`t has no quantile at ${share}`));
  });
});

describe('errors from unit means', () => {
  it('needs two units', () => {
    expect(() => meanOfUnits([1])).toThrow(
      new RangeError('a mean shows its error by two units or more, got 1'),
    );
    expect(meanOfUnits([1, 1])).toEqual({ mean: 1, error: 0, df: 1 });
  });
});

describe('equivalence', () => {
  it('is never shown of a mean at the bound or beyond, however sure', () => {
    expect(equivalent(6, 0, 5, 6)).toBe(false);
    expect(equivalent(-6.1, 0, 5, 6)).toBe(false);
    expect(equivalent(-5.9, 0, 5, 6)).toBe(true);
  });
});

describe('Brown-Forsythe', () => {
  it('does not hang on where groups lie, in what unit and in which order', () => {
    fc.assert(
      fc.property(numbers, numbers, fc.integer(), (a, b, by) => {
        const one = brownForsythe([a, b]);
        fc.pre(Number.isFinite(one.w));
        const moved = brownForsythe([
          b.map((value) => 4 * value),
          a.map((value) => 4 * value + by),
        ]);
        expect(moved.w).toBeCloseTo(one.w, 6);
        expect(moved.p).toBeCloseTo(one.p, 6);
      }),
    );
  });

  it('is sure of what differs without any scatter, and sees nothing where nothing differs', () => {
    expect(
      brownForsythe([
        [-1, 1],
        [-2, 2],
      ]),
    ).toEqual({ w: Infinity, df1: 1, df2: 2, p: 0 });
    expect(
      brownForsythe([
        [-1, 1],
        [4, 6],
      ]),
    ).toEqual({ w: 0, df1: 1, df2: 2, p: 1 });
    expect(
      brownForsythe([
        [3, 3],
        [3, 3],
      ]),
    ).toEqual({ w: 0, df1: 1, df2: 2, p: 1 });
  });

  it('refuses what has no spreads', () => {
    expect(() => brownForsythe([[1, 2]])).toThrow(
      new RangeError('2 values in 1 groups have no spreads to compare'),
    );
    expect(() => brownForsythe([[1, 2, 3], []])).toThrow(
      new RangeError('3 values in 2 groups have no spreads to compare'),
    );
    expect(() => brownForsythe([[1], [2]])).toThrow(RangeError);
  });
});
