import { expect, it } from 'vitest';
import { longRunCount } from '../run-count';
import { HI_HAT_FEET, openingWatchClaims } from './opening-watch-claims';

/** Nothing was tuned on it. */
const SEED = 60_923;
const TAKES = longRunCount(600);

const STEPPED = HI_HAT_FEET.filter(([, { steps }]) => steps >= 0.5);
const COMING_UP = STEPPED.filter(([, { rest }]) => rest > 0.1);

it.each(COMING_UP)('a controller that follows a foot is not asked about: %s', (_, foot) => {
  const { asked, follow } = openingWatchClaims(foot, TAKES, SEED);
  for (const { claim, wrong } of asked)
    expect([claim, wrong / follow <= 0.02]).toEqual([claim, true]);
});

it.each(STEPPED)('a controller that is stuck is asked about: %s', (_, foot) => {
  const { stuck, stuckTold } = openingWatchClaims(foot, TAKES, SEED);
  expect(stuck).toBeGreaterThan(0);
  expect(stuckTold / stuck).toBeGreaterThanOrEqual(0.95);
});
