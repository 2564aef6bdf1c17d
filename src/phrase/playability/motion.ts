import type { LaidPhrase } from '../cycle-pattern';
import { laidTimeline, strokesByLimb, type TimedNote, type Timeline } from '../timeline';

/** The fastest tempo a phrase can have, beats per minute, and what 7 intervals in a second span at it. */
const FASTEST_BPM = 300;
const LOOK_AHEAD_BEATS = FASTEST_BPM / 60;

/** What a body has to do to play a layer: notes in time, enough of them for every limit, and each limb's strokes. */
export interface Motion extends Timeline {
  /** By the order of LIMBS. */
  readonly strokesByLimb: readonly (readonly TimedNote[])[];
}

export function motion(laid: LaidPhrase): Motion {
  const timed = laidTimeline(laid, LOOK_AHEAD_BEATS);
  return { ...timed, strokesByLimb: strokesByLimb(timed.notes) };
}
