import type { TempoMap } from '../time/tempo';
import { beats } from '../time/beats';

/** A change that is decided and begins at a bar line or a cycle start to come; at integer microseconds from bar 1 beat 1. */
export type Upcoming =
  | { readonly layer: number; readonly bar: number; readonly atUs: number }
  | { readonly bpm: number; readonly atUs: number };

/**
 * What is to come after one more change was decided, in time order. A tempo takes the place of those that would have
 * begun no sooner, and moves the bar lines that layers wait for.
 *
 * @param tempo as it is with the change in it
 * @example withUpcoming([{ bpm: 90, atUs: 4000000 }], { bpm: 100, atUs: 4000000 }, steadyTempo(80), 4) // => [{ bpm: 100, atUs: 4000000 }]
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
