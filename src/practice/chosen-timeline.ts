import type { Phrase } from '../phrase/model/phrase';
import { beats } from '../time/beats';
import type { Choices } from './choices';
import { LiveTimeline } from '../live/live-timeline';

/** How much of the target the lane shows before the start. Chosen, not measured. */
const PREVIEW_US = 20_000_000;

/** What will be due as the player has chosen it. */
export const chosenTimeline = (phrase: Phrase, choices: Choices): LiveTimeline =>
  new LiveTimeline({
    phrase,
    passages: [{ fromBar: 1, layer: Math.min(choices.layer, phrase.layers.length) }],
    tempos: [{ fromBeat: beats(0), bpm: choices.tempoBpm }],
    windows: choices.windows,
    countInBars: choices.countInBars,
  });

/** The same, laid out far enough to be looked at before anything is played. */
export function previewTimeline(phrase: Phrase, choices: Choices): LiveTimeline {
  const timeline = chosenTimeline(phrase, choices);
  timeline.extendTo(PREVIEW_US);
  return timeline;
}
