import type { LaidPhrase } from '../cycle-pattern';
import { LIMBS } from '../limb';
import { laidTimeline, strokesOf, type TimedNote } from '../timeline';

/** The fastest tempo a phrase can have, beats per minute, and what 7 intervals in a second span at it. */
const FASTEST_BPM = 300;
const LOOK_AHEAD_BEATS = FASTEST_BPM / 60;

/** What a body has to do to play a layer: notes in time, enough of them for every limit, and each limb's strokes. */
export interface Motion {
  readonly notes: readonly TimedNote[];
  /** By the order of LIMBS. */
  readonly strokesByLimb: readonly (readonly TimedNote[])[];
}

export function motion(laid: LaidPhrase): Motion {
  const { notes } = laidTimeline(laid, LOOK_AHEAD_BEATS);
  return { notes, strokesByLimb: LIMBS.map((limb) => strokesOf(notes, limb)) };
}
