import { ReturnWalk, type ClickReturn } from '../coach/click-returns';
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
    const from = firstNoteFrom(take, fromUs, to);
    walk.add(plan, take.judgement(from, firstNoteFrom(take, returnUs + 1, to)).notes);
  }
  return [...walk.returns];
}

/** The first of the notes up to index `to` that is due at a time or later. */
function firstNoteFrom({ noteTimeUs }: LiveTake, timeUs: number, to: number): number {
  let first = to;
  while (first > 0 && noteTimeUs[first - 1]! >= timeUs) first--;
  return first;
}
