import { describe, expect, it } from 'vitest';
import { faultShare, nextEvidence } from '../../src/score/fault-share';

const test = faultShare(0.01, 0.1, 1);
const after = (strokes: readonly boolean[]) =>
  strokes.reduce((evidence, isFault) => nextEvidence(evidence, isFault, test), 0);

describe("Wald's sequential test of a share", () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 6.2.6, worked example, from memory: p1 = 0.01, p2 = 0.10, alpha = 0.05,
  // beta = 0.10 gives the lines -0.939 + 0.0397 n (accept) and 1.205 + 0.0397 n (reject).
  const [accept, reject, slope] = [-0.939, 1.205, 0.0397];

  it('gives the lines of the handbook', () => {
    const { gain, loss } = test;
    const perFault = gain - loss;
    expect(gain / perFault).toBeCloseTo(slope, 4);
    expect(-Math.log(0.95 / 0.1) / perFault).toBeCloseTo(accept, 3);
    expect(Math.log(0.9 / 0.05) / perFault).toBeCloseTo(reject, 3);
  });

  it('accepts without a fault at 24 strokes and not at 23, as the handbook does', () => {
    const clean = (count: number) => Array.from({ length: count }, () => false);
    expect(slope * 24 + accept).toBeGreaterThan(0);
    expect(slope * 23 + accept).toBeLessThan(0);
    expect(after(clean(24))).toBeGreaterThan(Math.log(0.95 / 0.1));
    expect(after(clean(23))).toBeLessThan(Math.log(0.95 / 0.1));
  });
});
