import { mean, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { classContrasts } from '../../src/coach/evidence/class-contrasts';
import { brownForsythe } from '../../src/score/statistics/brown-forsythe';
import { meanOfUnits } from '../../src/score/cycle-means';
import { equivalent } from '../../src/score/statistics/equivalence';
import { holm } from '../../src/score/statistics/holm';
import { tQuantile, tTwoSided } from '../../src/score/statistics/student-t';

// Marks: F found in a stored copy of the source, M from memory, C computed elsewhere (SciPy 1.17.1 or
// plain arithmetic) from data marked beside it.

const apart = (value: number, from: number): number => Math.abs(value / from - 1);

describe('Holm', () => {
  // Benjamini & Hochberg 1995, J. R. Statist. Soc. B 57:289-300: 15 p-values of a clinical trial [F, many test suites].
  const TRIAL = [
    0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719,
    0.6528, 0.759, 1,
  ];

  it('keeps three of the fifteen at 5 % [F], with these adjusted values [C]', () => {
    const adjusted = holm(TRIAL);
    expect(adjusted.filter((p) => p < 0.05)).toHaveLength(3);
    const rest = Array.from({ length: 6 }, () => 1);
    [0.0015, 0.0056, 0.0247, 0.114, 0.2211, 0.278, 0.278, 0.278, 0.3213, ...rest].forEach((p, i) =>
      expect(adjusted[i]).toBeCloseTo(p, 12),
    );
  });

  it('takes them in any order: .01 .04 .03 .005 [data F; C]', () => {
    const adjusted = holm([0.01, 0.04, 0.03, 0.005]);
    [0.03, 0.06, 0.06, 0.02].forEach((p, i) => expect(adjusted[i]).toBeCloseTo(p, 12));
  });
});

describe("Student's t", () => {
  it.each([
    // R's documentation of t.test, extra drug and none, Welch [F].
    ['Welch, 15 and 15 values', -2.455356398, 24.98852929, 0.021378001462867, 1e-8],
    ['Welch, a handful far apart', -9.559498, 2.000852, 0.0107515611, 1e-6],
    // TOST of two means of 95 and 89 [data F; C].
    ['Welch, the nearer side of TOST', 2.6961, 181.13, 2 * 0.00384, 2e-3],
    // coaching rule: 1 % over 40 groups two-sided at 8 cycles [C].
    ['a bar of p < .0005', 6.081756186049146, 7, 0.0005, 1e-12],
    ['15 degrees', -2, 15, 0.06394500728472015, 1e-12],
    ['a small chance keeps its digits', 12, 23, 2.2101889236582475e-11, 1e-10],
    ['so does a smaller one', 40, 60, 5.755480486627385e-45, 1e-10],
  ])('%s: t %f, %f degrees, p %f', (_, t, degrees, p, tolerance) => {
    expect(apart(tTwoSided(t, degrees), p)).toBeLessThan(tolerance);
  });

  // scipy.stats.t.ppf [C]; the first five agree with the printed tables [M].
  it.each([
    [0.975, 1, 12.706204736174694],
    [0.975, 3, 3.1824463052837078],
    [0.975, 5, 2.5705818356363146],
    [0.975, 10, 2.228138851986274],
    [0.975, 120, 1.9799304050824402],
    [0.975, 7.5, 2.333039626864974],
    [0.95, 20, 1.7247182429207866],
    [0.99975, 7, 6.081756186049146],
    [0.9995, 2.5, 18.277893528131457],
  ])('share %f of %f degrees lies below %f', (share, degrees, t) => {
    expect(apart(tQuantile(share, degrees), t)).toBeLessThan(1e-10);
    expect(apart(tQuantile(1 - share, degrees), -t)).toBeLessThan(1e-10);
  });
});

describe('errors from cycle means', () => {
  it('cycles (3, 5) (-3, -1) (5, 7) (-1, 1): 1.8257 where the strokes would say 1.2536 [C]', () => {
    const cycles = [
      [3, 5],
      [-3, -1],
      [5, 7],
      [-1, 1],
    ];
    const told = meanOfUnits(cycles.map((cycle) => mean(cycle)));
    expect(told.mean).toBe(2);
    expect(told.error).toBeCloseTo(1.8257, 4);
    expect(told.df).toBe(3);
    expect(told.mean / told.error).toBeCloseTo(1.0954, 4);
    expect(tTwoSided(told.mean / told.error, told.df)).toBeCloseTo(0.353, 3);
    expect(sampleStandardDeviation(cycles.flat()) / Math.sqrt(8)).toBeCloseTo(1.2536, 4);
  });

  it('is the paired t where the units are differences: R `sleep` [data M; C]', () => {
    const first = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2];
    const second = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];
    const told = meanOfUnits(first.map((value, i) => value - second[i]!));
    expect(told.mean / told.error).toBeCloseTo(-4.062128, 6);
    expect(tTwoSided(told.mean / told.error, told.df)).toBeCloseTo(0.00283289, 8);
    const half = tQuantile(0.975, told.df) * told.error;
    expect(told.mean - half).toBeCloseTo(-2.459886, 6);
    expect(told.mean + half).toBeCloseTo(-0.700114, 6);
  });
});

describe('errors shrunk towards what is expected of them', () => {
  it('24 degrees of 1 and 6 of 4 are 1.6: Smyth 2004, Stat. Appl. Genet. Mol. Biol. 3:3, posterior variance [M], by hand', () => {
    // Seven units of three pairs, a note against its neighbour: differences of 1, 1 and 2, up and down about 0.
    const sizes = [1, 1, 2];
    const units = { count: 7, of: Int32Array.from({ length: 42 }, (_, at) => Math.floor(at / 6)) };
    const sides = [1, -1, 1, -1, 1, -1, 0];
    const values = Float64Array.from({ length: 42 }, (_, at) =>
      at % 2 === 0 ? sides[Math.floor(at / 6)]! * sizes[(at % 6) / 2]! : 0,
    );
    const notesAt = (place: number) => sides.map((_, unit) => 6 * unit + place);
    const classes = sizes.map((_, i) => ({
      group: notesAt(2 * i),
      rest: notesAt(2 * i + 1),
      causes: [],
      opposite: [],
    }));
    const shrunk = classContrasts({ classes, units, expected: [1, 1, 1] }, values);
    // Variances of 1, 1 and 4 over seven units; the usual one is 1.
    expect(shrunk.map((one) => 7 * one!.error ** 2)).toEqual([
      expect.closeTo(1, 12),
      expect.closeTo(1, 12),
      expect.closeTo(1.6, 12),
    ]);
    expect(shrunk.map((one) => one!.df)).toEqual([30, 30, 30]);
  });
});

describe('equivalence (TOST)', () => {
  it.each([
    // m 6.05, mu 6, SD 1.5, n 21: bounds ±.68 SD: p .003841 [F data; C]; the 90 % interval ends at .6145466 [C].
    ['one sample', 0.05, 1.5 / Math.sqrt(21), 20, 0.68 * 1.5, 0.6145466],
    // m 5.25/5.22, SD .95/.83, n 95/89, Welch: p .00384 at ±.384 [data F; C]; 90 % interval -.188 to .248 [C].
    ['two samples', 0.03, 0.13130289196435183, 181.134367, 0.384, 0.2470843],
    ['the same the other way round', -0.03, 0.13130289196435183, 181.134367, 0.384, 0.2470843],
  ])('%s', (_, difference, error, df, bound, edge) => {
    expect(equivalent(difference, error, df, bound)).toBe(true);
    expect(equivalent(difference, error, df, edge + 1e-6)).toBe(true);
    expect(equivalent(difference, error, df, edge - 1e-6)).toBe(false);
    const nearer = tTwoSided((bound - Math.abs(difference)) / error, df) / 2;
    expect(nearer).toBeCloseTo(0.00384, 5);
  });
});

describe('Brown-Forsythe', () => {
  // NIST/SEMATECH e-Handbook 1.3.5.10, GEAR.DAT: diameters of gears, thousandths off 1.000 [F].
  const GEAR = [
    [6, -4, -2, 0, -8, -7, 2, -1, -6, 0],
    [-2, 6, 0, 2, -3, -2, -4, 0, 6, -12],
    [-9, -13, -3, -1, -5, -6, 0, -1, -4, -4],
    [5, 2, -6, 0, -5, -6, -2, -4, 2, -4],
    [-2, -2, -18, -10, 2, -16, -4, -7, -20, -4],
    [9, 13, 9, -3, -12, 2, -5, -2, -19, -4],
    [-10, 4, -4, 1, -2, 0, 18, 10, -4, 2],
    [-2, 0, 6, 0, 2, -4, -2, -4, 2, 6],
    [2, -2, -4, -5, -4, 4, 4, -2, -1, -9],
    [-9, -5, -16, -6, -3, -3, -9, -2, 4, -3],
  ];

  it('ten batches of ten gears: W = 1.7059176930 [F]', () => {
    const { w, df1, df2, p } = brownForsythe(GEAR);
    expect(w).toBeCloseTo(1.705917693, 9);
    expect([df1, df2]).toEqual([9, 90]);
    expect(p).toBeCloseTo(0.0990829756, 9);
  });

  it('two of the batches [C]', () => {
    const { w, df1, df2, p } = brownForsythe([GEAR[0]!, GEAR[5]!]);
    expect(w).toBeCloseTo(3.548546, 6);
    expect([df1, df2]).toEqual([1, 18]);
    expect(p).toBeCloseTo(0.075856, 6);
  });

  it('groups of several sizes: scipy.stats.levene about the median [C]', () => {
    const groups = [
      [5, 7, 9, 30, 2, 4, 8],
      [5, 5, 6, 7, 7, 8, 9, 5.5, 6.5],
      [1, 40, -33, 12],
    ];
    const { w, p } = brownForsythe(groups);
    expect(w).toBeCloseTo(6.950049292675441, 10);
    expect(p).toBeCloseTo(0.006225252609545716, 12);
  });
});
