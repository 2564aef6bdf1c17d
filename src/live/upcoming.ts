import type { TempoMap } from '../time/tempo';
import { beats, type Beats } from '../time/beats';

/** A layer that is decided, and the bar line (1-based) where it begins; its pickup takes the last partials before it. */
export interface UpcomingLayer {
  readonly layer: number;
  readonly bar: number;
  readonly hasPickup: boolean;
  /** Integer microseconds from bar 1 beat 1. */
  readonly atUs: number;
}

/** A tempo that is decided, and the cycle start where it begins. */
export interface UpcomingTempo {
  readonly bpm: number;
  readonly bar: number;
  /** 1-based exact beat of that bar. */
  readonly beat: Beats;
  /** Integer microseconds from bar 1 beat 1. */
  readonly atUs: number;
}

export type Upcoming = UpcomingLayer | UpcomingTempo;

/**
 * The layer (1-based) that sounds: one that is only chosen does from its bar line on.
 *
 * @param last that of the figures there are; undefined before there are any
 * @example soundingLayer([{ layer: 4, bar: 6, hasPickup: false, atUs: 9000000 }], 4, 3) // => 3
 */
export const soundingLayer = (
  upcoming: readonly Upcoming[],
  chosen: number,
  last: number | undefined,
): number | undefined => (upcoming.some((one) => 'layer' in one) ? last : chosen);

/**
 * What is to come after one more change was decided, in time order. A tempo takes the place of those that would have
 * begun no sooner, and moves the bar lines that layers wait for.
 *
 * @param tempo as it is with the change in it
 * @example withUpcoming([{ bpm: 90, atUs: 4000000 }], { bpm: 100, atUs: 4000000 }, steadyTempo(80), 4).map(({ bpm }) => bpm) // => [100]
 */
export function withUpcoming(
  known: readonly Upcoming[],
  change: Upcoming,
  tempo: TempoMap,
  beatsPerBar: number,
): readonly Upcoming[] {
  const kept = known.filter(
    (one) => !('bpm' in change) || 'layer' in one || one.atUs < change.atUs,
  );
  return [...kept, change]
    .map((one) =>
      'layer' in one ? { ...one, atUs: tempo.usAt(beats((one.bar - 1) * beatsPerBar)) } : one,
    )
    .sort((a, b) => a.atUs - b.atUs);
}
