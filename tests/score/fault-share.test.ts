import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { faultShare, nextEvidence } from '../../src/score/fault-share';
import { runCount } from '../run-count';

const test = faultShare(0.01, 0.1, 1);
const after = (strokes: readonly boolean[]) =>
  strokes.reduce((evidence, isFault) => nextEvidence(evidence, isFault, test), 0);

describe('evidence about the share of faults', () => {
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
