import { describe, expect, it } from 'vitest';
import { classContrasts } from '../../../src/coach/evidence/class-contrasts';
import { contrastOf } from '../../../src/coach/evidence/contrast';

/** Units of four notes: one of the first group, one of the second. */
const unitsOf = (count: number) => ({
  count,
  of: Int32Array.from({ length: 4 * count }, (_, at) => Math.floor(at / 4)),
});
const classOf = (place: number, count: number) => {
  const places = Array.from({ length: 4 * count }, (_, at) => at);
  return {
    group: places.filter((at) => at % 4 === place),
    rest: places.filter((at) => at % 4 !== place),
    causes: [],
    opposite: [],
  };
};
const values = (count: number) =>
  Float64Array.from({ length: 4 * count }, (_, at) => (at * 7919) % 23);

describe('contrasts of all classes', () => {
  const count = 12;
  const classes = [classOf(0, count), classOf(1, count), classOf(2, count)];
  const units = unitsOf(count);
  const plain = classes.map(({ group, rest }) => contrastOf(values(count), units, group, rest)!);

  it('keep their means; their errors lean on what is expected, by the median of all', () => {
    const expected = [1, 4, 1];
    const ratios = plain.map(({ error }, i) => error ** 2 / expected[i]!).sort((a, b) => a - b);
    classContrasts({ classes, units, expected }, values(count)).forEach((one, i) => {
      const { mean, error, df } = plain[i]!;
      expect(one!.mean).toBe(mean);
      expect(one!.df).toBe(df + 24);
      const prior = ratios[1]! * expected[i]!;
      expect(one!.error ** 2).toBeCloseTo((24 * prior + df * error ** 2) / (24 + df), 9);
    });
  });

  it('need six units', () => {
    const expected = [1];
    const of = (units: number) =>
      classContrasts(
        { classes: [classOf(0, units)], units: unitsOf(units), expected },
        values(units),
      )[0];
    expect(of(5)).toBeUndefined();
    expect(of(6)).toBeDefined();
  });
});
