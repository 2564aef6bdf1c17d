import { followSlips } from '../coach/place/follow-slips';
import type { Slip } from '../coach/place/slip';
import type { Plan } from '../match/plan';
import { assessMessages } from '../score/assess';
import type { Judgement } from '../score/judge';
import { alignedMessages } from '../kit/aligned-messages';
import { accompanyingPhrase } from '../take/take-exercise';
import { judgeablePhrase, type JudgeableTake } from '../take/judgeable-take';
import { tempoMap } from '../time/tempo';
import { LiveTake } from './live-take';
import { LiveTimeline } from './live-timeline';
import { TakeCommands } from './take-commands';

/** A kept take, judged afresh and laid on a lane. */
export interface OpenedTake {
  readonly plan: Plan;
  readonly judgement: Judgement;
  readonly lane: LiveTake;
  /** Where the place was lost. */
  readonly slips: readonly Slip[];
  /** The take judged against what was played there; undefined where none was lost. */
  readonly followed: Judgement | undefined;
  /** When the last note or stroke is over, integer microseconds. */
  readonly endUs: number;
}

/** Judges a kept take from its raw messages; undefined when its phrase cannot be read, or the take is damaged. */
export function openTake(take: JudgeableTake): OpenedTake | undefined {
  const phrase = judgeablePhrase(take);
  if (!phrase) return undefined;
  const plan: Plan = {
    phrase,
    passages: take.passages,
    tempo: tempoMap(take.tempos),
    windows: { toleranceMs: take.toleranceMs, reachMs: take.reachMs },
    silentBars: take.silentBars,
  };
  const timeline = new LiveTimeline({
    phrase: plan.phrase,
    whole: accompanyingPhrase(take),
    passages: plan.passages,
    tempos: plan.tempo.changes,
    windows: plan.windows,
    countInBars: take.countInBars,
    silentBars: plan.silentBars,
  });
  const { strokes, judgement } = assessMessages(
    plan,
    alignedMessages(take),
    take.kit,
    (_, untilUs) => timeline.notesUpTo(untilUs),
  );
  const lastStrokeUs = strokes.strokes.at(-1)?.timeUs ?? 0;
  const lastUs = Math.max(0, judgement.notes.at(-1)?.due.timeUs ?? 0, lastStrokeUs);
  const lane = laneOf(take, timeline, judgement.notes.length);
  const { slips } = lane.place;
  const followed = followSlips(plan, strokes, take.kit, slips);
  return { plan, judgement, lane, slips, followed, endUs: lastUs };
}

/** The lane as it was while playing, of the first `notes` notes: those that were played to. */
function laneOf(take: JudgeableTake, timeline: LiveTimeline, notes: number): LiveTake {
  timeline.endAfter(notes);
  const lane = new LiveTake(timeline, take.kit, take.deviceOffsetMs, new TakeCommands(take));
  lane.sync();
  lane.replay(take.messages);
  lane.advance(Infinity);
  return lane;
}
