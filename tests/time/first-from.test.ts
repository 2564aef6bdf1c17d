import { expect, it } from 'vitest';
import { firstAtOrAfter } from '../../src/time/first-from';
import { firstFrom } from '../../src/time/first-from';

const TIMES = [-5, 0, 0, 10, 20, 20, 20];

it.each([
  [-6, 0],
  [-5, 0],
  [-4, 1],
  [0, 1],
  [1, 3],
  [10, 3],
  [11, 4],
  [20, 4],
  [21, 7],
])('from %i on begins at index %i, the first of equals', (from, index) => {
  expect(firstFrom(TIMES, (time) => time, from)).toBe(index);
  expect(firstAtOrAfter(Float64Array.from(TIMES), TIMES.length, from)).toBe(index);
});

it('looks at the first `count` places of a column and no farther', () => {
  expect(firstAtOrAfter(Float64Array.from(TIMES), 3, 10)).toBe(3);
  expect(firstAtOrAfter(Float64Array.from(TIMES), 0, -9)).toBe(0);
  expect(firstFrom([], Number, 0)).toBe(0);
});
