import { expect, it } from 'vitest';
import { longRunCount } from '../run-count';
import { wrongShare } from './claim';
import { PEDAL_PLAYERS, pedalClaims } from './pedal-claims';

/** Nothing was tuned on it. */
const SEED = 60_317;

it.each(PEDAL_PLAYERS)('a pedal is called reversed with reason: %s', (_, player) => {
  for (const claim of pedalClaims(player, longRunCount(4000), SEED)) {
    expect(claim.said).toBeGreaterThan(0);
    expect(wrongShare(claim)).toBeLessThanOrEqual(0.05);
  }
});
