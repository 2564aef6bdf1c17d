import { mean, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { differenceOf } from '../../../src/coach/comparison/difference';

const measureOf = (values: readonly number[], half: number) => ({
  mean: mean([...values]),
  error: sampleStandardDeviation([...values]) / Math.sqrt(values.length),
  df: values.length - 1,
  half,
});

describe('a difference of two figures', () => {
  // The extreme example of the Welch tests that several test suites share: t -9.559498, df 2.000852, p 0.0107515611. With the
  // four degrees of a pooled test it would be 0.0007.
  const few = [3, 4, 1, 2.1];
  const large = [490.2, 340, 433.9];
  it('has the degrees of freedom of Welch, with a case on each side of one in a hundred', () => {
    expect(differenceOf(measureOf(large, 200), measureOf(few, 0))).toBe('open');
    const larger = large.map((value) => value + 20);
    expect(differenceOf(measureOf(larger, 200), measureOf(few, 0))).toBe('other');
  });

  // Lakens' example of two one-sided tests: means 5.25 and 5.22, SD .95 and .83, n 95 and 89, bounds of .384: t 3.1530 and
  // -2.6961 at 181.13 degrees, the larger p .00384.
  const first = { mean: 5.25, error: 0.95 / Math.sqrt(95), df: 94 };
  const second = { mean: 5.22, error: 0.83 / Math.sqrt(89), df: 88 };
  it('is the same where it is shown to be smaller than a halving', () => {
    expect(differenceOf({ ...first, half: 0.384 }, second)).toBe('same');
    // The 90 % interval reaches from -.188 to .248.
    expect(differenceOf({ ...first, half: 0.24 }, second)).toBe('open');
    expect(differenceOf({ ...first, half: 0.25 }, second)).toBe('same');
  });

  const sure = (at: number) => ({ mean: at, error: 0.001, df: 40 });
  it('is none below half of a halving, however sure', () => {
    expect(differenceOf({ ...sure(16), half: 8 }, sure(12.01))).toBe('same');
    expect(differenceOf({ ...sure(16), half: 8 }, sure(11.99))).toBe('other');
    expect(differenceOf({ ...sure(16), half: 8 }, sure(20.01))).toBe('other');
  });

  it('is open where there is no figure', () => {
    expect(differenceOf({ ...sure(16), half: 8 }, undefined)).toBe('open');
  });

  it('is certain without any error', () => {
    const none = (at: number) => ({ mean: at, error: 0, df: 5 });
    expect(differenceOf({ ...none(1), half: 0.5 }, none(0))).toBe('other');
    expect(differenceOf({ ...none(1), half: 0.5 }, none(1))).toBe('same');
  });
});
