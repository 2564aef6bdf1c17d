import { expect, it } from 'vitest';
import { LIVE_NOTES, liveErrorRate } from '../../src/coach/live-error-rate';

it('grows with the square of what is seen, up to all that is looked back on', () => {
  const full = liveErrorRate(LIVE_NOTES);
  expect(liveErrorRate(LIVE_NOTES / 2) / full).toBeCloseTo(1 / 4, 12);
  expect(liveErrorRate(LIVE_NOTES + 1)).toBe(full);
  expect(liveErrorRate(0)).toBe(0);
});

it('adds up to 2 % over as many looks as Pocock counts: twenty, at z = 3.00 for 2 % [C]', () => {
  // Two-sided beyond 3.00.
  expect(liveErrorRate(LIVE_NOTES)).toBeCloseTo(0.0027, 5);
});
