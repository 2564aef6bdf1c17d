import { describe, expect, it } from 'vitest';
import { longRunCount } from '../run-count';
import { fuzz, FUZZED, type FuzzedKind } from './mutated-inputs';

describe('mutated files', () => {
  it.each(Object.keys(FUZZED) as FuzzedKind[])(
    '%s: are refused or accepted, and nothing is thrown (`npm run fuzz` reads many more)',
    async (kind) => {
      const { inputs, accepted, thrown } = await fuzz(kind, { inputs: longRunCount(900), seed: 1 });
      expect(thrown).toEqual([]);
      expect(accepted).toBeGreaterThan(0);
      expect(accepted).toBeLessThan(inputs);
    },
  );

  it('are the same again from the same seed', () => {
    for (const { input } of Object.values(FUZZED)) expect(input(7)).toEqual(input(7));
  });
});
