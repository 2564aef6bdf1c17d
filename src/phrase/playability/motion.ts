import type { LayeredPhrase } from '../layers/cycle-pattern';
import { TEMPO_BPM } from '../model/phrase-file';
import { stackTimeline, strokesByLimb, type TimelineNote, type Timeline } from '../layers/timeline';

/** What 7 intervals in a second span at the fastest tempo that a phrase can have. */
const LOOK_AHEAD_BEATS = TEMPO_BPM.most / 60;

/** What a body has to do to play a layer: notes in time, enough of them for every limit, and each limb's strokes. */
export interface Motion extends Timeline {
  /** By the order of LIMBS. */
  readonly strokesByLimb: readonly (readonly TimelineNote[])[];
}

export function motion(laid: LayeredPhrase): Motion {
  const timed = stackTimeline(laid, LOOK_AHEAD_BEATS);
  return { ...timed, strokesByLimb: strokesByLimb(timed.notes) };
}
