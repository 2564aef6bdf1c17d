import { probit } from 'simple-statistics';
import { expect, it } from 'vitest';
import { LIVE_NOTES, liveErrorRate } from '../../src/coach/live-error-rate';
import { chance } from '../../src/time/chance';

it('grows with the square of what is seen, up to all that is looked back on', () => {
  const full = liveErrorRate(LIVE_NOTES);
  expect(liveErrorRate(LIVE_NOTES / 2) / full).toBeCloseTo(1 / 4, 12);
  expect(liveErrorRate(LIVE_NOTES + 1)).toBe(full);
  expect(liveErrorRate(0)).toBe(0);
});

it('is 1 % at most over twenty looks at white noise, eight bars of sixteen notes apart', () => {
  const { normal } = chance(1977);
  const [bars, notesABar, takes] = [8, 16, 10_000];
  const seen = LIVE_NOTES / notesABar;
  const boundaries = Array.from(
    { length: 20 },
    (_, look) => -probit(liveErrorRate((look + 1) * bars * notesABar) / 2),
  );
  let claimed = 0;
  for (let take = 0; take < takes; take++) {
    const sums = [0];
    while (sums.length <= 20 * bars) sums.push(sums.at(-1)! + normal());
    const isClaimed = boundaries.some((boundary, look) => {
      const to = (look + 1) * bars;
      const from = Math.max(0, to - seen);
      return Math.abs(sums[to]! - sums[from]!) > boundary * Math.sqrt(to - from);
    });
    if (isClaimed) claimed++;
  }
  expect(claimed / takes).toBeLessThanOrEqual(0.01);
  // And hardly less: looks eight bars apart share little.
  expect(claimed / takes).toBeGreaterThan(0.006);
});
