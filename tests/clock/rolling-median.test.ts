import { describe, expect, it } from 'vitest';
import { rollingMedian } from '../../src/clock/rolling-median';

describe('the rolling median', () => {
  it('forgets pairs that are older than its window', () => {
    const estimator = rollingMedian(1000);
    for (const atMs of [0, 100, 200]) estimator.add(atMs, 50);
    estimator.add(1150, 7);
    expect(estimator.count).toBe(2);
    expect(estimator.offsetAt(1150)).toBe(28.5);
  });

  it('tells its spread by the median absolute deviation', () => {
    const estimator = rollingMedian();
    // Median 2, absolute deviations 1 1 0 0 2 4 7, median 1: the worked example of Wikipedia, "Median absolute deviation" [M].
    [1, 1, 2, 2, 4, 6, 9].forEach((offset, n) => estimator.add(n, offset));
    expect(estimator.offsetAt(6)).toBe(2);
    expect(estimator.spreadMs).toBeCloseTo(1.4826, 9);
  });

  it('knows nothing once cleared', () => {
    const estimator = rollingMedian();
    estimator.add(0, 3);
    estimator.clear();
    expect(estimator.offsetAt(0)).toBeUndefined();
    expect(estimator.spreadMs).toBeUndefined();
  });
});
