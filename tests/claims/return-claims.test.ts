import { describe, expect, it } from 'vitest';
import { longRunCount } from '../run-count';
import { returnClaims } from './return-claims';

/** The program was not tuned on it. */
const SEED = 41_809;
const TAKES = longRunCount(1200);

describe.each([6, 10])('takes with %d stretches of two silent bars', (rounds) => {
  it.each([
    [8, 0],
    [8, 8],
    [12, 12],
    // Who wanders more than the spread beside the click shows.
    [8, 14],
  ])('spread %d ms, beats that wander by %d: told in 2 of 100 at most', (spreadMs, walkMs) => {
    const { said } = returnClaims({ spreadMs, walkMs, driftMs: 0 }, rounds, TAKES, SEED);
    const most = 0.02 * TAKES;
    // And two standard deviations of that count: chance has its part in so few takes.
    expect(said).toBeLessThanOrEqual(most + 2 * Math.sqrt(most));
  });

  it.each([-6, 6])('%d ms a beat are told, and never the wrong way', (driftMs) => {
    const player = { spreadMs: 8, walkMs: 4, driftMs };
    const { said, wrong } = returnClaims(player, rounds, TAKES, SEED);
    expect(wrong).toBe(0);
    expect(said / TAKES).toBeGreaterThan(0.9);
  });
});
