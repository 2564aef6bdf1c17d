import { describe, expect, it } from 'vitest';
import { longRunCount } from '../../run-count';
import { changeCount, PRACTISED_FAULTS } from './change-claims';
import { sumOf } from './change-table';
import type { Scatter } from './player';

/** Nothing was tuned on it. */
let seed = 57_203;
const nextSeed = () => seed++;
const PAIRS = longRunCount(60);
const PLAYERS: readonly Scatter[] = [
  { noise: 'white', sdMs: 8 },
  { noise: 'AR(1) 0.7 shared', sdMs: 10 },
];

/** `npm run -s claims -- change` counts enough of them to tell what share it is. */
describe.each(PLAYERS)('what is told since an exercise, $noise, $sdMs ms', (scatter) => {
  const counted = (next: 'unchanged' | 'halved') =>
    sumOf(
      PRACTISED_FAULTS.map(({ variants }) => changeCount(variants, next, scatter, PAIRS, nextSeed)),
    );

  it('is no change where nothing has changed, in 98 of 100', () => {
    const { pairs, other, same } = counted('unchanged');
    expect(pairs).toBeGreaterThan(0.9 * PAIRS * PRACTISED_FAULTS.length);
    // And two standard deviations of that count: chance has its part in so few takes.
    expect(other).toBeLessThanOrEqual(0.02 * pairs + 2 * Math.sqrt(0.02 * pairs));
    expect(same).toBeGreaterThan(pairs / 2);
  });

  it('is a halving in nine of ten where the evidence is enough, and never that it grew', () => {
    const { pairs, same, more, enough, otherOfEnough } = counted('halved');
    expect(enough).toBeGreaterThan(pairs / 4);
    expect(otherOfEnough / enough).toBeGreaterThan(0.9);
    expect(more).toBe(0);
    expect(same).toBeLessThanOrEqual(0.05 * pairs);
  });
});
