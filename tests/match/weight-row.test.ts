import { expect, it } from 'vitest';
import { compareRows, subtractRow } from '../../src/match/weight-row';

const ROWS = Float64Array.of(1, 2, 3, 4, 5, 6, /* next */ 1, 2, 3, 4, 5, 7, /* next */ 9);

it('compares rows entry by entry, and nothing behind them', () => {
  expect(compareRows(ROWS, 0, ROWS, 6)).toBeLessThan(0);
  expect(compareRows(ROWS, 6, ROWS, 0)).toBeGreaterThan(0);
  expect(compareRows(Float64Array.of(2, 0, 0, 0, 0, 0), 0, ROWS, 0)).toBeGreaterThan(0);
  expect(compareRows(ROWS, 6, Float64Array.of(1, 2, 3, 4, 5, 7, 0), 0)).toBe(0);
});

it('takes one row off another, and leaves the rows beside it alone', () => {
  const from = Float64Array.from(ROWS);
  subtractRow(from, 6, ROWS, 0);
  expect([...from]).toEqual([1, 2, 3, 4, 5, 6, 0, 0, 0, 0, 0, 1, 9]);
  subtractRow(from, 0, ROWS, 6);
  expect([...from]).toEqual([0, 0, 0, 0, 0, -1, 0, 0, 0, 0, 0, 1, 9]);
});
