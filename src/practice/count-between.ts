import type { LiveTimeline } from '../live/live-timeline';
import { gridAt } from '../phrase/model/grid';
import type { CountChoice } from '../sound/count-choice';
import { COUNT_CONTEXT_US, countPattern, type CycleToCount } from '../sound/count-pattern';
import type { SoundEvent } from '../sound/sound-event';
import { between, firstFrom } from '../time/first-from';
import { isSilentAt } from './sounds-between';

/** How a count is said, and how loud: linear gain, 0 to 1. */
export interface SpokenCount extends CountChoice {
  readonly volume: number;
}

/** What is counted aloud from `fromUs` up to but not including `toUs`, in time order; nothing where the click is silent. */
export function countBetween(
  timeline: LiveTimeline,
  count: SpokenCount,
  fromUs: number,
  toUs: number,
): SoundEvent[] {
  if (count.follows === 'off') return [];
  const { marks, plan } = timeline;
  const velocity = velocityOf(count.volume);
  const [first, after] = [fromUs - COUNT_CONTEXT_US, toUs + COUNT_CONTEXT_US];
  const words = countPattern(
    count,
    between(marks, ({ timeUs }) => timeUs, first, after),
    cyclesIn(timeline, first, after),
  );
  return words
    .filter(({ timeUs }) => timeUs >= fromUs && timeUs < toUs)
    .filter(({ timeUs }) => !plan.silentBars || !isSilentAt(marks, timeUs))
    .map((counted) => ({ kind: 'count', ...counted, velocity }));
}

/** The cycles that have a part in a stretch. */
function cyclesIn({ cycles, plan }: LiveTimeline, fromUs: number, toUs: number): CycleToCount[] {
  const first = firstFrom(cycles, ({ endUs }) => endUs, fromUs + 1);
  const after = firstFrom(cycles, ({ startUs }) => startUs, toUs);
  return cycles.slice(first, after).map(({ startUs, endUs, from, passage }) => {
    const { subdivision } = gridAt(plan.phrase, plan.passages[passage]!.layer);
    const partialUs = 60e6 / (subdivision * plan.tempo.bpmAt(from));
    return { startUs, endUs, partialUs, subdivision };
  });
}

/** The velocity whose gain it is: (v/127)², and the softest there is for none. */
const velocityOf = (gain: number): number => Math.max(1, Math.round(127 * Math.sqrt(gain)));
