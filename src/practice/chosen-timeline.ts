import type { Kit } from '../kit/kit';
import type { LaneFeed } from '../live/lane-feed';
import { LiveTake } from '../live/live-take';
import { LiveTimeline } from '../live/live-timeline';
import type { Phrase } from '../phrase/model/phrase';
import { TEMPO_BPM } from '../phrase/model/phrase-file';
import { tempoRange } from '../phrase/model/tempo-range';
import { beats } from '../time/beats';
import { clamp } from '../time/whole';
import type { Choices } from './choices';

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

/** The nearest whole tempo that can be practised at. */
export function practicable(bpm: number, phrase: Phrase | undefined): number {
  const { least, most } = phrase ? tempoRange(phrase.meter, phrase.subdivision) : TEMPO_BPM;
  return clamp(Math.round(bpm), least, most);
}

/** The lane before anything is played. */
export function previewLane(phrase: Phrase, choices: Choices, kit: Kit): LaneFeed {
  const timeline = chosenTimeline(phrase, choices);
  timeline.extendTo(PREVIEW_US);
  const take = new LiveTake(timeline, kit);
  take.sync();
  return take;
}
