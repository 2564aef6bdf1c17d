import { describe, expect, it } from 'vitest';
import { PLAYER } from '../capture/played-rounds';
import { longRunCount } from '../run-count';
import { captureClaims, freeCaptureClaims } from './capture-claims';
import { wrongShare } from './claim';
import { stickingClaims } from './sticking-claims';

/** Nothing was tuned on it. */
const SEED = 47_201;
const PHRASES = longRunCount(150, 10);

describe(`what capture says of ${PHRASES} phrases of a player that it was not tuned on`, () => {
  it('is said nearly each time, and wrong in one of twenty at most', () => {
    const claims = [
      ...captureClaims(PHRASES, SEED, PLAYER),
      ...freeCaptureClaims(PHRASES, SEED, PLAYER),
    ];
    for (const one of claims) expect(wrongShare(one), one.claim).toBeLessThanOrEqual(0.05);
    for (const one of claims.filter(({ claim }) => claim.startsWith('sure')))
      expect(one.said, one.claim).toBeGreaterThan(0.8 * PHRASES);
  });

  it('is never sure of the hands', () => {
    const [hands, sure] = stickingClaims();
    expect(hands!.said).toBeGreaterThan(150);
    expect(sure!.said).toBe(0);
  });
});
