import { isSilentIn, type Plan } from '../match/plan';

/**
 * Whether a bar (1-based) counts for the gate: not one that is left out, nor one without a click. A steady player of whom
 * every beat scatters by 12 ms is 35 ms off after eight of them by chance alone, and would go back in a tempo plan again
 * and again (`npm run -s claims`); what the time does there is told at the click's return.
 */
export function countingBars(
  plan: Plan,
  leftOutBars: readonly number[] = [],
): (bar: number) => boolean {
  const leftOut = new Set(leftOutBars);
  if (!plan.silentBars) return (bar) => !leftOut.has(bar);
  const known = new Map<number, boolean>();
  return (bar) => {
    const counts = known.get(bar) ?? (!leftOut.has(bar) && !isSilentIn(plan, bar));
    known.set(bar, counts);
    return counts;
  };
}
