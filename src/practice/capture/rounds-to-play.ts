import { layerShape } from '../../phrase/layer-shape';
import type { Phrase } from '../../phrase/phrase';
import { beats } from '../../time/beats';
import { LiveTimeline } from '../live-timeline';

/** Enough for capture to be sure, and then the simulated player rests. Chosen. */
const ROUNDS = 8;

/** A layer (1-based) of a phrase, a few times round, for whoever plays by himself. */
export function roundsToPlay(phrase: Phrase, layer: number, bpm: number): LiveTimeline {
  const timeline = new LiveTimeline({
    phrase,
    passages: [{ fromBar: 1, layer }],
    tempos: [{ fromBeat: beats(0), bpm }],
    windows: {},
    countInBars: 0,
  });
  const cycleUs = (phrase.cycle / layerShape(phrase, layer).subdivision) * (60e6 / bpm);
  timeline.extendTo((ROUNDS - 0.5) * cycleUs);
  return timeline;
}
