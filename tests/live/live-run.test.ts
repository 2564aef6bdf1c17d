import { expect, it } from 'vitest';
import { longRunCount } from '../run-count';
import { differencesOfRun } from './live-run';

it('lawKeptTakeEqualsLive: with controllers, faults and changes, late and out of order, a kept take says what was said', () => {
  const differing = Array.from({ length: longRunCount(600) }, (_, seed) => ({
    seed,
    differences: differencesOfRun(seed),
  })).filter(({ differences }) => differences.length > 0);
  expect(differing).toEqual([]);
});
