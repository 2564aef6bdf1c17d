import { theilSen } from '../../score/theil-sen';

/** Smaller changes over the run are let pass: a player is not a machine. Chosen, not measured. */
const LEAST_CHANGE_MS = 20;
/** Three standard errors: one steady run of 370 is called drifting, if its change is large enough too. */
const SURE_FROM = 3;

/**
 * How far offsets moved from the first to the last, ms, when they moved plainly one way; undefined
 * when they did not. The amount is by Theil and Sen, the certainty by the rank test of Mann (1945,
 * Econometrica 13:245-259) and Kendall.
 *
 * @example driftMs([0, 0, 0, 0]) // => undefined
 */
export function driftMs(offsetsMs: readonly number[]): number | undefined {
  const n = offsetsMs.length;
  const slope = theilSen(offsetsMs.map((y, x) => ({ x, y })));
  if (slope === undefined) return undefined;
  let score = 0;
  for (let j = 1; j < n; j++)
    for (let i = 0; i < j; i++) score += Math.sign(offsetsMs[j]! - offsetsMs[i]!);
  const deviation = Math.sqrt((n * (n - 1) * (2 * n + 5)) / 18);
  const change = slope * (n - 1);
  return Math.abs(score) / deviation >= SURE_FROM && Math.abs(change) >= LEAST_CHANGE_MS
    ? change
    : undefined;
}
