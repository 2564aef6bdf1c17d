import type { LayeredPhrase } from '../layers/cycle-pattern';
import { tempoRange } from '../model/tempo-range';
import { stackTimeline, strokesByLimb, type TimelineNote, type Timeline } from '../layers/timeline';

/** What a body has to do to play a layer: notes in time, enough of them for every limit, and each limb's strokes. */
export interface Motion extends Timeline {
  /** By the order of LIMBS. */
  readonly strokesByLimb: readonly (readonly TimelineNote[])[];
}

export function motion(laid: LayeredPhrase): Motion {
  const { meter, subdivision } = laid.phrase;
  // As far as 7 intervals in a second reach at the fastest tempo that the phrase can have.
  const timed = stackTimeline(laid, tempoRange(meter, subdivision).most / 60);
  return { ...timed, strokesByLimb: strokesByLimb(timed.notes) };
}
