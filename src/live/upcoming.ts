import type { Passage } from '../phrase/model/passage';
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

/** A target that waits for the player: it moves so many partials later, earlier negative, where one of its cycles starts for the player. */
export interface UpcomingWait {
  readonly waitPartials: number;
  /** Partials to a beat. */
  readonly subdivision: number;
  readonly bar: number;
  /** 1-based exact beat of that bar. */
  readonly beat: Beats;
  /** Integer microseconds from bar 1 beat 1. */
  readonly atUs: number;
}

/** A player who is brought back: from a bar line (1-based) on so many bars are counted in, then the phrase begins again. */
export interface UpcomingReturn {
  readonly countInBars: number;
  readonly bar: number;
  /** Integer microseconds from bar 1 beat 1. */
  readonly atUs: number;
}

export type Upcoming = UpcomingLayer | UpcomingTempo | UpcomingWait | UpcomingReturn;

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
    (one) => !('bpm' in change) || !('bpm' in one) || one.atUs < change.atUs,
  );
  return [...kept, change]
    .map((one) => {
      if ('bpm' in one) return one;
      const inBar = 'beat' in one ? one.beat.sub(1) : 0;
      return { ...one, atUs: tempo.usAt(beats((one.bar - 1) * beatsPerBar).add(inBar)) };
    })
    .sort((a, b) => a.atUs - b.atUs);
}

/**
 * What of it the passages of a plan still have, after a change of place; tempi come as before.
 *
 * @example stillToCome([{ layer: 4, bar: 6, hasPickup: false, atUs: 9000000 }], [{ fromBar: 1, layer: 3 }]) // => []
 */
export const stillToCome = (
  known: readonly Upcoming[],
  passages: readonly Passage[],
): readonly Upcoming[] =>
  known.filter((one) => 'bpm' in one || passages.some((passage) => comesWith(one, passage)));

function comesWith(one: Exclude<Upcoming, UpcomingTempo>, passage: Passage): boolean {
  const { fromBar, layer, latePartials, countInBars = 0 } = passage;
  if ('waitPartials' in one) return latePartials !== undefined && fromBar === one.bar;
  if ('countInBars' in one) return countInBars > 0 && fromBar - countInBars === one.bar;
  return layer === one.layer && fromBar === one.bar;
}
