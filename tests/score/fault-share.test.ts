import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { faultShare, nextEvidence } from '../../src/score/fault-share';
import { runCount } from '../run-count';

const test = faultShare(0.01, 0.1, 1);
const after = (strokes: readonly boolean[]) =>
  strokes.reduce((evidence, isFault) => nextEvidence(evidence, isFault, test), 0);

describe('evidence about the share of faults', () => {
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

  it('lawLeeway: is never lower than after the worst there is, whatever came before', () => {
    const strokes = fc.array(fc.boolean(), { maxLength: 200 });
    fc.assert(
      fc.property(strokes, strokes, (before, since) => {
        const worst = after(Array.from({ length: 20 }, () => true));
        const from = (start: number) =>
          since.reduce((evidence, isFault) => nextEvidence(evidence, isFault, test), start);
        expect(from(after(before))).toBeGreaterThanOrEqual(from(worst));
      }),
      { numRuns: runCount(200) },
    );
  });

  it('counts half as much where faults come in clusters', () => {
    expect(faultShare(0.1, 0.2).gain).toBeCloseTo(faultShare(0.1, 0.2, 1).gain / 2, 12);
  });

  it.each([
    [0, 0.1],
    [0.1, 0.1],
    [0.2, 0.1],
    [0.1, 1],
    [NaN, 0.1],
  ])('cannot be had between shares of %d and %d', (good, bad) => {
    expect(() => faultShare(good, bad)).toThrow(RangeError);
  });
});
