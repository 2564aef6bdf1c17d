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

it.each([
  [20_261_748, 'two pads of one voice struck at one moment, of which one tells no level'],
  [20_270_088, 'a stroke that arrives again long after its twin'],
  [20_004_096, 'a pickup that begins ahead of where the target waited'],
])('says the same of run %d: %s', (seed) => {
  expect(differencesOfRun(seed)).toEqual([]);
});
