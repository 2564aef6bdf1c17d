import { expect, it } from 'vitest';
import { turnAt } from '../../src/live/turn-at';

const SECOND = 1_000_000;
const feed = {
  cycles: [0, 2, 4, 6].map((from) => ({ startUs: from * SECOND, endUs: (from + 2) * SECOND })),
  noteCount: 2,
  noteTimeUs: Float64Array.of(2 * SECOND, 7 * SECOND, 0),
};

it.each([
  [-600_000, undefined],
  [-500_000, 'Listen'],
  [1_499_999, 'Listen'],
  [1_500_000, 'Answer'],
  [3_499_999, 'Answer'],
  [3_500_000, 'Listen'],
  [5_500_000, 'Answer'],
  [7_499_999, 'Answer'],
  [7_500_000, undefined],
])('at %i µs of turns of two seconds: %s', (us, turn) => {
  expect(turnAt(feed, us)).toBe(turn);
});
