import { ReturnWalk, type ClickReturn } from '../coach/click-returns';
import { firstAtOrAfter } from '../time/first-from';
import type { LiveTake } from './live-take';

/** What is carried from look to look, by take. */
const walks = new WeakMap<LiveTake, ReturnWalk>();

/**
 * The returns of the click in a take that is played, when the notes up to index `to` are over. Each is told once, so that
 * a look costs what has come since.
 */
export function runningReturns(take: LiveTake, to: number): readonly ClickReturn[] {
  const { plan } = take.timeline;
  if (!plan.silentBars || to === 0) return [];
  const walk = walks.get(take) ?? new ReturnWalk();
  walks.set(take, walk);
  const endUs = take.noteTimeUs[to - 1]!;
  for (let span = walk.next(plan); span && span.returnUs < endUs; span = walk.next(plan)) {
    const { fromUs, returnUs } = span;
    const from = firstAtOrAfter(take.noteTimeUs, to, fromUs);
    walk.add(plan, take.judgement(from, firstAtOrAfter(take.noteTimeUs, to, returnUs + 1)).notes);
  }
  return [...walk.returns];
}
