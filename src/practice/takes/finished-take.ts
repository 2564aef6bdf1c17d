import type { Take, TakeHead } from '../../take/take';
import type { LiveTake } from '../../live/live-take';
import { DAY_US } from '../../take/take-file';

/**
 * What is kept of a take: the kit's own words, from message `from` on, and all that decides what was
 * due.
 */
export function finishedTake(take: LiveTake, head: TakeHead, endUs: number, from = 0): Take {
  const { plan, countInBars } = take.timeline;
  const messages = take.log.toMessages(from);
  return {
    ...head,
    passages: plan.passages,
    tempos: plan.tempo.changes,
    countInBars,
    // A clock that was set back in mid-take may say that it ended before it began; a machine that slept, days later.
    endUs: Math.min(DAY_US, Math.max(0, endUs, messages.at(-1)?.timeUs ?? 0)),
    kit: take.kit,
    deviceOffsetMs: take.deviceOffsetMs,
    toleranceMs: plan.windows.toleranceMs,
    reachMs: plan.windows.reachMs,
    silentBars: plan.silentBars,
    messages,
    ...take.commands.parts,
  };
}
