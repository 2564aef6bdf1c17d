import { describe, expect, it } from 'vitest';
import { contrastOf } from '../../../src/coach/evidence/contrast';

/** Units of two notes each: the first is the group's, the second the rest's. */
function contrast(differences: readonly number[], inCommon: (unit: number) => number = () => 0) {
  const values = Float64Array.from(
    differences.flatMap((difference, unit) => [difference + inCommon(unit), inCommon(unit)]),
  );
  const of = Int32Array.from(values, (_, at) => Math.floor(at / 2));
  const places = [...values.keys()];
  return contrastOf(
    values,
    { count: differences.length, of },
    places.filter((at) => at % 2 === 0),
    places.filter((at) => at % 2 === 1),
  );
}

describe('a contrast', () => {
  it('is the mean of the units’ differences, with the error of that mean', () => {
    // 4, -2, 6, 0: mean 2, SD √(40/3) = 3.651, over √4 = 1.826 (cycles of two strokes, coaching notes 5.4 [C]).
    const { mean, error, df, agreement } = contrast([4, -2, 6, 0])!;
    expect(mean).toBe(2);
    expect(error).toBeCloseTo(1.8257, 4);
    expect(df).toBe(3);
    expect(agreement).toBe(0.5);
  });

  it('lawCommonWander: what a whole unit has in common changes nothing', () => {
    const alone = contrast([4, -2, 6, 0])!;
    const wandering = contrast([4, -2, 6, 0], (unit) => 100 * Math.sin(unit))!;
    expect(wandering.mean).toBeCloseTo(alone.mean, 9);
    expect(wandering.error).toBeCloseTo(alone.error, 9);
  });

  it('has a larger error where neighbouring units go together, and not where they alternate', () => {
    // 3 3 3 -3 -3 -3: lag-1 correlation 27/54 = 0.5, a quarter of it believed: √(1.125/0.875) = 1.134.
    const together = contrast([3, 3, 3, -3, -3, -3])!;
    const alternating = contrast([3, -3, 3, -3, 3, -3])!;
    expect(together.error / alternating.error).toBeCloseTo(Math.sqrt(1.125 / 0.875), 9);
  });

  it('leaves out units that lack one of the two, and notes that have no value', () => {
    const values = Float64Array.of(5, 1, NaN, 1, 7, 1);
    const units = { count: 3, of: Int32Array.of(0, 0, 1, 1, 2, 2) };
    const found = contrastOf(values, units, [0, 2, 4], [1, 3, 5])!;
    expect(found).toMatchObject({ mean: 5, df: 1, notes: 2, others: 3 });
    expect(contrastOf(values, units, [2], [3])).toBeUndefined();
  });
});
