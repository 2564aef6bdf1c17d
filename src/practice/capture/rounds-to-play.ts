import { layerShape } from '../../phrase/layers/layer-shape';
import type { Phrase } from '../../phrase/model/phrase';
import type { LiveTimeline } from '../../live/live-timeline';
import { plainTimeline } from '../../live/plain-timeline';

/** Enough for capture to be sure, and then the simulated player rests. Chosen. */
const ROUNDS = 8;

/** A layer (1-based) of a phrase, a few times round, for whoever plays by himself. */
export function roundsToPlay(phrase: Phrase, layer: number, bpm: number): LiveTimeline {
  const timeline = plainTimeline(phrase, layer, bpm);
  const cycleUs = (phrase.cycle / layerShape(phrase, layer).subdivision) * (60e6 / bpm);
  timeline.extendTo((ROUNDS - 0.5) * cycleUs);
  return timeline;
}
