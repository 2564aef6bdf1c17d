import type { Plan } from '../../match/plan';
import type { JudgedNote } from '../../score/judged-note';
import { tQuantile } from '../../score/statistics/student-t';
import { clickReturns, meanReturn } from '../click-returns';
import { finding, type Finding } from '../finding';
import { justNoticeableMs } from '../just-noticeable';
import { FEWEST_RETURNS, WITHIN_CHANCE } from '../return-words';

/** Of the error rate, what this may use up. Chosen, not measured. */
const SHARE = 0.3;

/**
 * Whether the player rushes or drags where there is no click: the mean of the errors at its returns has to leave what
 * chance makes of it, by the spread beside the click and by their own scatter, and to be as much as listeners notice.
 *
 * @param level how often it may be told where there is nothing, 0 to 1
 */
export function returnsOff(plan: Plan, notes: readonly JudgedNote[], level: number): Finding[] {
  const returns = clickReturns(plan, notes);
  const told = meanReturn(returns);
  if (!told || told.count < FEWEST_RETURNS || told.standardErrorMs === undefined) return [];
  const { count, errorMs, chanceMs, standardErrorMs } = told;
  const wide = tQuantile(1 - (SHARE * level) / 2, count - 1) * standardErrorMs;
  const size = Math.abs(errorMs);
  if (size <= wide || size <= WITHIN_CHANCE * chanceMs || size <= justNoticeableMs(0)) return [];
  const half = tQuantile(0.975, count - 1) * standardErrorMs;
  const due = returns.flatMap(({ notes: last }) => last.map((note) => note.due));
  const toleranceMs = due[0]!.toleranceUs / 1000;
  const weight = Math.min(1, size / toleranceMs) / 2;
  const sure = { lower: errorMs - half, upper: errorMs + half };
  return [finding('silent bars', weight, due, { ms: errorMs, returns: count, sure })];
}
