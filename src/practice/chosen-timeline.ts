import type { Kit } from '../kit/kit';
import type { LaneFeed } from '../live/lane-feed';
import { LiveTake } from '../live/live-take';
import { LiveTimeline } from '../live/live-timeline';
import { beats } from '../time/beats';
import { silentBarsOf, type Choices } from './choices';
import type { PracticeTarget } from './whole-target';

/** How much of the target the lane shows before the start. Chosen, not measured. */
const PREVIEW_US = 20_000_000;

/** What will be due as the player has chosen it. */
export const chosenTimeline = (
  { phrase, layer, whole }: PracticeTarget,
  choices: Choices,
): LiveTimeline =>
  new LiveTimeline({
    phrase,
    whole,
    passages: [{ fromBar: 1, layer }],
    tempos: [{ fromBeat: beats(0), bpm: choices.tempoBpm }],
    windows: choices.windows,
    countInBars: choices.countInBars,
    silentBars: silentBarsOf(choices),
  });

/** The lane before anything is played. */
export function previewLane(target: PracticeTarget, choices: Choices, kit: Kit): LaneFeed {
  const timeline = chosenTimeline(target, choices);
  timeline.extendTo(PREVIEW_US);
  const take = new LiveTake(timeline, kit);
  take.sync();
  return take;
}
