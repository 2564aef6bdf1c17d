/**
 * How often a law is drawn: `count` times where everything is checked, a few times where tests run after
 * every change (`npm run unit`) or against thousands of planted faults (`npm run mutate`).
 */
export const runCount = (count: number): number =>
  import.meta.env?.['RUNS'] === 'few' ? Math.min(count, FEW) : count;

const FEW = 30;
