import { expect, it } from 'vitest';
import { hitWindow } from '../../src/match/hit-window';

// Reach is min(100 ms, a partial), tolerance min(35 ms, a third of a partial).
it.each([
  [100_001, 100_000, 33_334],
  [100_000, 100_000, 33_333],
  [99_999, 99_999, 33_333],
  [104_999, 100_000, 35_000],
  [105_000, 100_000, 35_000],
  [105_003, 100_000, 35_000],
  [104_997, 100_000, 34_999],
  [0.2, 1, 0],
])(
  'a partial of %d µs has a reach of %i and a tolerance of %i µs',
  (partialUs, reach, tolerance) => {
    expect(hitWindow(partialUs)).toEqual({ reachUs: reach, toleranceUs: tolerance });
  },
);

it('takes what the player set as it is, wider than a partial too', () => {
  expect(hitWindow(50_000, { reachMs: 80.0004, toleranceMs: 60 })).toEqual({
    reachUs: 80_000,
    toleranceUs: 60_000,
  });
  expect(hitWindow(50_000, { reachMs: 0, toleranceMs: 0 })).toEqual({ reachUs: 1, toleranceUs: 0 });
});
