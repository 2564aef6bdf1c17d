import { mean, median } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { circular } from '../../src/clock/latency/circular';
import { contrastDb, levelDb } from '../../src/score/contrast';
import { separation } from '../../src/score/separation';
import { robustSpread, spread } from '../../src/score/statistics/spread';
import { theilSen } from '../../src/score/statistics/theil-sen';
import { wilson } from '../../src/score/statistics/wilson';

// Marks: F found in a stored copy of the source, M from memory, C computed elsewhere (SciPy or plain
// arithmetic) from data marked beside it.

describe('NIST StRD univariate, certified mean and standard deviation (n - 1) [F]', () => {
  const swing = (base: number) => [
    base + 0.2,
    ...Array.from({ length: 500 }, () => [base + 0.1, base + 0.3]).flat(),
  ];
  const MAVRO = `18 17 18 19 18 17 15 14 15 15 17 18 18 19 19 21 20 16 14 13 13 15 15 16 15 14 13 14
    15 14 15 16 15 16 19 20 20 21 22 23 24 25 27 26 26 26 27 26 25 24`
    .split(/\s+/)
    .map((digits) => Number(`2.00${digits}`));

  it.each([
    ['NumAcc1', [10000001, 10000003, 10000002], 10000002, 1, 1e-15],
    ['NumAcc2', swing(1), 1.2, 0.1, 1e-14],
    ['NumAcc3', swing(1e6), 1000000.2, 0.1, 1e-9],
    // Two passes in doubles reach 6e-10 here; a one-pass formula gives a negative variance [C].
    ['NumAcc4', swing(1e7), 10000000.2, 0.1, 1e-8],
    ['Mavro', MAVRO, 2.001856, 0.000429123454003053, 1e-14],
  ])('%s', (_, values, certifiedMean, certifiedSd, tolerance) => {
    expect(Math.abs(mean(values) - certifiedMean) / certifiedMean).toBeLessThan(1e-15);
    expect(Math.abs(spread(values)! - certifiedSd)).toBeLessThan(tolerance);
  });
});

describe('Wilson score interval', () => {
  // Cases of Newcombe 1998, Stat. Med. 17:857-872, Table I: cases [F], printed to four places.
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('%i of %i, Newcombe', (k, n, lower, upper) => {
    const interval = wilson(k, n)!;
    expect(interval.lower).toBeCloseTo(lower, 4);
    expect(interval.upper).toBeCloseTo(upper, 4);
  });

  // The same formula computed elsewhere [C].
  it.each([
    [5, 10, 0.236593, 0.763407],
    [8, 10, 0.490162, 0.943318],
    [9, 10, 0.59585, 0.982124],
    [10, 10, 0.722467, 1],
    [16, 16, 0.806392, 1],
    [18, 20, 0.698966, 0.972134],
    [20, 20, 0.838875, 1],
    [30, 32, 0.798529, 0.982689],
    [45, 50, 0.786398, 0.956524],
    [50, 50, 0.928652, 1],
    [90, 100, 0.825634, 0.944771],
    [95, 100, 0.88825, 0.978456],
    [99, 100, 0.945514, 0.998233],
    [0, 10, 0, 0.277533],
  ])('%i of %i', (k, n, lower, upper) => {
    const interval = wilson(k, n)!;
    expect(interval.lower).toBeCloseTo(lower, 6);
    expect(interval.upper).toBeCloseTo(upper, 6);
  });

  // All as written: lower bound n / (n + z²) [C].
});

describe('separation is the area under the ROC curve', () => {
  const ratings = (counts: number[]) =>
    counts.flatMap((count, rating) => Array.from({ length: count }, () => rating));

  it.each([
    [
      'Mann-Whitney example, SciPy [M; C]: U = 17 of 20',
      [19, 22, 16, 29, 24],
      [20, 11, 17, 12],
      0.85,
    ],
    [
      'Hollander & Wolfe permeability, R wilcox.test [data M; C]: W = 35 of 50',
      [0.8, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46],
      [1.15, 0.88, 0.9, 0.74, 1.21],
      0.7,
    ],
    ['labels 0 0 1 1, scores .1 .4 .35 .8, scikit-learn [M; C]', [0.35, 0.8], [0.1, 0.4], 0.75],
    ['ties count one half [C]: U = 13.5 of 16', [70, 90, 80, 60], [50, 65, 40, 70], 0.84375],
  ])('%s', (_, louder, softer, auc) => {
    expect(separation(louder, softer)).toBeCloseTo(auc, 12);
  });

  it('Hanley & McNeil 1982, Radiology 143:29-36 [M; C]: heavy ties, 0.893', () => {
    const abnormal = ratings([3, 2, 2, 11, 33]);
    const normal = ratings([33, 6, 6, 11, 2]);
    expect(separation(abnormal, normal)).toBeCloseTo(0.893171, 6);
  });
});

describe('robust spread', () => {
  it('median absolute deviation of 1 1 2 2 4 6 9 is 1 [M, C]', () => {
    expect(robustSpread([1, 1, 2, 2, 4, 6, 9])! / 1.482602218505602).toBeCloseTo(1, 14);
  });

  // R MASS `chem` [data M; C]: one wild value of 24.
  it('chem: mean, median, spread, scaled MAD', () => {
    const chem = [
      2.2, 2.2, 2.4, 2.4, 2.5, 2.7, 2.8, 2.9, 3.03, 3.03, 3.1, 3.37, 3.4, 3.4, 3.4, 3.5, 3.6, 3.7,
      3.7, 3.7, 3.7, 3.77, 5.28, 28.95,
    ];
    expect(mean(chem)).toBeCloseTo(4.280417, 6);
    expect(median(chem)).toBeCloseTo(3.385, 12);
    expect(spread(chem)).toBeCloseTo(5.297396, 6);
    // R scales by 1.4826 where we keep all digits.
    expect((robustSpread(chem)! / 1.482602218505602) * 1.4826).toBeCloseTo(0.526323, 6);
  });
});

describe('Theil-Sen slope', () => {
  const points = (xs: number[], ys: number[]) => xs.map((x, i) => ({ x, y: ys[i]! }));

  it('Sen 1968, JASA 63:1379-1389 [F, SciPy test suite]: 4, where least squares gives 4.021', () => {
    const x = [1, 2, 3, 4, 10, 12, 18];
    expect(theilSen(points(x, [9, 15, 19, 20, 45, 55, 78]))).toBe(4);
  });

  it('0 1 1 [F]: one half', () => {
    expect(theilSen(points([0, 1, 2], [0, 1, 1]))).toBe(0.5);
  });
});

describe('circular mean and resultant, degrees', () => {
  const turned = (degrees: number) => (degrees + 360) % 360;
  it.each([
    ['SciPy documentation [F; R C]', [20, 30, 330], 7.294976657784, 9, 0.897849, 6],
    [
      'Jammalamadaka & SenGupta 2001 [F]',
      [51, 67, 40, 109, 31, 358],
      48.62718088723,
      9,
      0.836436,
      6,
    ],
    [
      'Berens 2009, alpha [F to two places; C]',
      [13, 15, 21, 26, 28, 30, 35, 36, 41, 60, 92, 103, 165, 199, 210, 250, 301, 320, 343, 359],
      23.49,
      3,
      0.450451,
      6,
    ],
    [
      'Berens 2009, beta [F to two places; C]',
      [1, 13, 41, 56, 67, 71, 81, 85, 99, 110, 119, 131, 145, 177, 199, 220, 291, 320, 340, 355],
      72.5,
      3,
      0.355772,
      6,
    ],
    ['Zar ch. 26 [M; C]', [45, 55, 81, 96, 110, 117, 132, 154], 98.988, 3, 0.825218, 6],
    [
      'Mardia & Jupp 2.1, pigeons [M; C]',
      [43, 45, 52, 61, 75, 88, 88, 279, 357],
      51.05,
      3,
      0.710991,
      6,
    ],
  ])('%s', (_, degrees, direction, places, resultant, resultantPlaces) => {
    const found = circular(degrees, 360)!;
    expect(turned(found.mean)).toBeCloseTo(direction, places);
    expect(found.resultant).toBeCloseTo(resultant, resultantPlaces);
  });

  // Berens 2009: circular SD 1.26 rad [F].
  it('spread of alpha is 1.26 rad', () => {
    const alpha = [
      13, 15, 21, 26, 28, 30, 35, 36, 41, 60, 92, 103, 165, 199, 210, 250, 301, 320, 343, 359,
    ];
    expect(circular(alpha, 360)!.spread * (Math.PI / 180)).toBeCloseTo(1.26, 2);
  });

  // R 0.995 at 500 ms is 7.97 ms [C]: two strokes whose angle has cosine 0.995.
  it('spread in ms follows from the resultant', () => {
    const apart = (Math.acos(0.995) / (2 * Math.PI)) * 500;
    expect(circular([-apart, apart], 500)!.resultant).toBeCloseTo(0.995, 12);
    expect(circular([-apart, apart], 500)!.spread).toBeCloseTo(7.97, 2);
  });
});

describe('level law 40·log10(v/127): GM Level 1 Developer Guidelines; SoundFont 2.04 §8.4.1 [F]', () => {
  it.each([
    [1, -84.15],
    [16, -35.99],
    [20, -32.11],
    [32, -23.95],
    [33, -23.41],
    [40, -20.07],
    [49, -16.54],
    [64, -11.9],
    [80, -8.03],
    [90, -5.98],
    [96, -4.86],
    [100, -4.15],
    [110, -2.5],
    [112, -2.18],
    [120, -0.98],
    [126, -0.14],
    [127, 0],
  ])('velocity %i is %f dB', (velocity, level) => {
    expect(levelDb(velocity)).toBeCloseTo(level, 2);
  });

  it.each([
    [112, 32, 21.76],
    [110, 30, 22.57],
    [100, 40, 15.92],
    [120, 60, 12.04],
    [96, 48, 12.04],
    [100, 80, 3.88],
  ])('accents of %i over ghosts of %i [C]: %f dB', (accent, ghost, contrast) => {
    expect(contrastDb([accent, accent], [ghost])).toBeCloseTo(contrast, 2);
  });
});
