import { describe, expect, it } from 'vitest';
import { hodgesLehmann, signedRankCritical } from '../../src/clock/latency/hodges-lehmann';
import { swingRatio } from '../../src/score/swing-ratio';

// Marks: F found in a stored copy of the source, M from memory, C computed elsewhere (SciPy 1.17.1 or
// plain arithmetic) from data marked beside it.

describe('swing ratio', () => {
  // Share r / (1 + r) of the beat [C]: 1:1 50 %, 1.5 60 %, 2:1 66.67 %, 2.5 71.43 %, 3:1 75 %, 3.5 77.78 %.
  it.each([
    [1, 0.5],
    [1.5, 0.6],
    [2, 0.66667],
    [2.5, 0.71429],
    [3, 0.75],
    [3.5, 0.77778],
  ])('%f:1 is played %f of the beat late', (ratio, share) => {
    const offbeatMs = [0, 0, 0, 0].map(() => (share - 0.5) * 400);
    const found = swingRatio({
      beatMs: 400,
      writtenShare: 0.5,
      onbeatMs: [0, 0, 0, 0],
      offbeatMs,
    })!;
    expect(found.ratio).toBeCloseTo(ratio, 3);
  });

  // A short note of exactly 100 ms [C]; sizes of Friberg & Sundström 2002 [F].
  it.each([
    [120, 4],
    [150, 3],
    [200, 2],
    [240, 1.5],
    [300, 1],
  ])('a short note of 100 ms at %i bpm is %f:1', (bpm, ratio) => {
    const beatMs = 60_000 / bpm;
    const offbeatMs = [0, 0, 0, 0].map(() => beatMs - 100 - (2 / 3) * beatMs);
    const found = swingRatio({ beatMs, writtenShare: 2 / 3, onbeatMs: [0, 0, 0, 0], offbeatMs })!;
    expect(found.ratio).toBeCloseTo(ratio, 9);
  });

  // scipy.stats.ttest_ind(equal_var=False).confidence_interval(0.95) [C]: 10.475095 to 22.001096 ms.
  it('has the interval of Welch', () => {
    const found = swingRatio({
      beatMs: 500,
      writtenShare: 0.5,
      onbeatMs: [-4, 2, 0, -6, 3, 1],
      offbeatMs: [12, 18, 9, 25, 14, 20, 11],
    })!;
    expect(found.ratio).toBeCloseTo(1.1389285, 6);
    expect(found.interval.lower).toBeCloseTo(1.0874656, 6);
    expect(found.interval.upper).toBeCloseTo(1.192993, 6);
  });
});

describe('signed ranks', () => {
  // Tables of the Wilcoxon signed-rank statistic, two-sided 0.05 [M; C by enumeration].
  it.each([
    [6, 0],
    [10, 8],
    [15, 25],
    [20, 52],
    [25, 89],
    [30, 137],
    [50, 434],
  ])('%i values: %i', (n, critical) => {
    expect(signedRankCritical(n)).toBe(critical);
  });

  // Hollander & Wolfe 3.3, Hamilton depression scores [data M; C]: −0.46, 96.1 % interval −0.786 to −0.010.
  it('Hodges & Lehmann of the depression scores', () => {
    const before = [1.83, 0.5, 1.62, 2.48, 1.68, 1.88, 1.55, 3.06, 1.3];
    const after = [0.878, 0.647, 0.598, 2.05, 1.06, 1.29, 1.06, 3.14, 1.29];
    const found = hodgesLehmann(after.map((score, i) => score - before[i]!))!;
    expect(found.location).toBeCloseTo(-0.46, 12);
    expect(found.lower).toBeCloseTo(-0.786, 12);
    expect(found.upper).toBeCloseTo(-0.01, 12);
  });
});
