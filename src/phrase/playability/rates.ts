import type { TimelineNote } from '../layers/timeline';
import { tempoFor, type HazardWatch } from './hazard';

/**
 * Strokes a second that one limb keeps up: 5 to 7 a hand in voluntary tapping, 10 for the world's fastest drummer
 * (Fujii et al., Neurosci. Lett. 459, 2009, abstract). No figure for feet was found; the hands' is used for them,
 * chosen, not measured.
 */
export const SUSTAINED_PER_SECOND = 7;
export const FASTEST_PER_SECOND = 10;

/**
 * Where a limb has to strike too often: 7 intervals in a row in less than a second, or 2 in less than 0.2 s. One
 * close pair alone may be a rebound, so it is let through. Both edges are playable.
 */
export function watchRates(strokes: readonly TimelineNote[], watch: HazardWatch): void {
  watchRuns(strokes, SUSTAINED_PER_SECOND, 1, 'RATE', watch);
  watchRuns(strokes, 2, 2 / FASTEST_PER_SECOND, 'BURST', watch);
}

function watchRuns(
  strokes: readonly TimelineNote[],
  intervals: number,
  seconds: number,
  code: 'RATE' | 'BURST',
  watch: HazardWatch,
): void {
  for (let i = 0; i + intervals < strokes.length; i++) {
    const first = strokes[i]!;
    const limit = tempoFor(strokes[i + intervals]!.beat - first.beat, seconds);
    if (watch.isAbove(limit))
      watch.add(code, first.limb, limit, strokes.slice(i, i + intervals + 1));
  }
}

/** The most strokes in a beat that a limb keeps up over 7 intervals, or over all its strokes when they are fewer. */
export function strokesPerBeat(strokes: readonly TimelineNote[]): number {
  const intervals = Math.min(SUSTAINED_PER_SECOND, strokes.length - 1);
  let most = 0;
  for (let i = 0; intervals > 0 && i + intervals < strokes.length; i++) {
    const beats = strokes[i + intervals]!.beat - strokes[i]!.beat;
    if (beats > 0) most = Math.max(most, intervals / beats);
  }
  return most;
}
