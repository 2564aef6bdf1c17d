import { describe, expect, it } from 'vitest';
import { velocitySummary } from '../../src/kit/velocity-summary';

describe('the velocities of a pad', () => {
  // Quartiles of 1 to 5, median 3: any table of order statistics [C].
  it('are summed up by their quantiles', () => {
    const { quantiles, lowest, highest } = velocitySummary([50, 10, 40, 20, 30])!;
    expect(quantiles.slice(1, 4)).toEqual([20, 30, 40]);
    expect([lowest, highest]).toEqual([10, 50]);
  });

  it('tell a pad that is cut off above, and name the setting', () => {
    const { saturated, remarks } = velocitySummary([30, 50, 60, 70, 80, 90, 100, 127, 127, 127])!;
    expect(saturated).toBe(0.3);
    expect(remarks).toHaveLength(1);
    expect(remarks[0]).toMatch(/^30 % .*gain or sensitivity/);
  });

  it('tell a floor under which nothing comes, but not a soft stroke that came twice', () => {
    expect(velocitySummary([28, 28, 28, 40, 50, 60, 70, 80, 90, 100])!.remarks[0]).toContain(
      'Nothing softer than 28',
    );
    expect(velocitySummary([8, 8, 8, 40, 50, 60, 70, 80, 90, 100])!.remarks).toEqual([]);
  });

  /** So many strokes spread from 30 up, and so many at one velocity besides. */
  const spreadAnd = (others: number, count: number, velocity: number) => [
    ...Array.from({ length: others }, (_, i) => 30 + 4 * i),
    ...Array.from({ length: count }, () => velocity),
  ];
  it.each([
    ['one stroke in ten at 127', spreadAnd(9, 1, 127), 1],
    ['one stroke in eleven at 127', spreadAnd(10, 1, 127), 0],
    ['nine strokes, one of them at 127', spreadAnd(8, 1, 127), 0],
    ['three of twenty at the floor of 20', spreadAnd(17, 3, 20), 1],
    ['two of twenty at the floor of 20', spreadAnd(18, 2, 20), 0],
    ['three of twenty at the floor of 19', spreadAnd(17, 3, 19), 0],
    ['two of ten at the floor', spreadAnd(8, 2, 20), 1],
    ['two of nine at the floor', spreadAnd(7, 2, 20), 0],
  ])('of which %s', (_, velocities, remarks) => {
    expect(velocitySummary(velocities)!.remarks).toHaveLength(remarks);
  });

  it('say nothing of none, and remark nothing on a few', () => {
    expect(velocitySummary([])).toBeUndefined();
    expect(velocitySummary([127, 127, 127])!.remarks).toEqual([]);
  });
});
