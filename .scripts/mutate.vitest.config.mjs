import { defineConfig } from 'vitest/config';

/** The tests that count for the mutated folder, and few runs of each law, from one seed. */
export default defineConfig({
  test: {
    environment: 'node',
    isolate: false,
    testTimeout: 60_000,
    include: (process.env['MUTATE_TESTS'] ?? '').split(','),
    setupFiles: ['tests/law-defaults.ts'],
    env: { RUNS: 'few', SEED: '1' },
  },
});
