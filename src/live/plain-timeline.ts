import type { Phrase } from '../phrase/model/phrase';
import { beats } from '../time/beats';
import { LiveTimeline } from './live-timeline';

/** One layer (1-based) of a phrase over and over at one tempo, without a count-in: what plays by itself and is not judged. */
export const plainTimeline = (phrase: Phrase, layer: number, bpm: number): LiveTimeline =>
  new LiveTimeline({
    phrase,
    passages: [{ fromBar: 1, layer }],
    tempos: [{ fromBeat: beats(0), bpm }],
    windows: {},
    countInBars: 0,
  });
