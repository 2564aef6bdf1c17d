const isFew = import.meta.env?.['RUNS'] === 'few';

/**
 * How often a law is drawn: `count` times where everything is checked, a few times where tests run after
 * every change (`npm run unit`) or against thousands of planted faults (`npm run mutate`).
 */
export const runCount = (count: number): number => (isFew ? Math.min(count, FEW) : count);

/** The same of what takes long each time: a fifth, at least once. */
export const longRunCount = (count: number): number => (isFew ? Math.ceil(count / 5) : count);

const FEW = 30;
