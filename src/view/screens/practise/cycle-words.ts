import type { LiveStats } from '../../../live/live-stats';
import { countText, figureText, sideOf } from '../../figures/format';

/** The last cycle, to be read aloud. */
export function cycleWords({
  cyclesPlayed,
  lastCycle,
}: Pick<LiveStats, 'cyclesPlayed' | 'lastCycle'>): string {
  const { meanMs } = lastCycle;
  const start = `Cycle ${cyclesPlayed}: ${countText(lastCycle)} as written`;
  if (meanMs === undefined) return `${start}.`;
  const side = sideOf(meanMs);
  return side
    ? `${start}, ${figureText(Math.abs(meanMs))} milliseconds ${side} on average.`
    : `${start}, neither early nor late on average.`;
}
