const MODE: unknown = import.meta.env?.['RUNS'];

const FEW = 30;

/** Whether laws draw other cases than last time: where few or many are drawn, but not in the check. */
export const drawsAnew = MODE === 'few' || MODE === 'many';

/** Chosen, not measured: the check draws the same cases each time, so more of them in it find nothing new for long. */
const SHARE_IN_CHECK = 0.4;

/**
 * How often a law is drawn: two fifths of `count` times in the check, fewer where tests run after every change
 * (`npm run unit`) or against thousands of planted faults (`npm run mutate`), five times `count` in `npm run many`, or as
 * many times as is said. The check draws the same cases each time, so what takes more than three seconds there has a
 * smaller `count` and a larger `many`: new cases come from `npm run many`, as many of each law as ever.
 */
export const runCount = (count: number, many = 5): number => {
  if (MODE === 'many') return many * count;
  const inCheck = Math.ceil(SHARE_IN_CHECK * count);
  return MODE === 'few' ? Math.min(inCheck, FEW) : inCheck;
};

/**
 * The same of what takes long each time: `count` times in `npm run many`, a twelfth in the check, or such a part as is
 * said, and a tenth at most after a change.
 */
export const longRunCount = (count: number, part = 12): number =>
  MODE === 'many' ? count : Math.ceil(count / (MODE === 'few' ? Math.max(10, part) : part));
