import type { Plan } from '../match/plan';
import { parsePhrase } from '../phrase/parse-phrase';
import { assess } from '../score/assess';
import type { Judgement } from '../score/judge';
import { alignedMessages } from '../take/aligned-messages';
import { strokesOfTake } from '../take/strokes-of-take';
import type { Take } from '../take/take';
import { tempoMap } from '../time/tempo';
import { LiveTake } from './live-take';
import { LiveTimeline } from './live-timeline';

/** A kept take, judged afresh and laid on a lane. */
export interface OpenedTake {
  readonly plan: Plan;
  readonly judgement: Judgement;
  readonly lane: LiveTake;
  /** When the last note or stroke is over, integer microseconds. */
  readonly endUs: number;
}

/** Judges a kept take from its raw messages; undefined when its phrase cannot be read. */
export function openTake(take: Take): OpenedTake | undefined {
  const parsed = parsePhrase(take.phraseText);
  if (!parsed.ok) return undefined;
  const plan: Plan = {
    phrase: parsed.value,
    passages: take.passages,
    tempo: tempoMap(take.tempos),
    windows: { toleranceMs: take.toleranceMs, reachMs: take.reachMs },
  };
  const { strokes, setAside } = strokesOfTake(alignedMessages(take), take.kit);
  const judgement = assess(
    plan,
    strokes.filter((_, j) => setAside[j] === 0),
    take.kit,
  );
  const lastUs = Math.max(0, judgement.notes.at(-1)?.due.timeUs ?? 0, strokes.at(-1)?.timeUs ?? 0);
  return { plan, judgement, lane: laneOf(take, plan, judgement), endUs: lastUs };
}

/** The lane as it was while playing, cut after the last note that was played to. */
function laneOf(take: Take, plan: Plan, judgement: Judgement): LiveTake {
  const timeline = new LiveTimeline({
    phrase: plan.phrase,
    passages: plan.passages,
    tempos: plan.tempo.changes,
    windows: plan.windows,
    countInBars: take.countInBars,
  });
  timeline.extendTo(judgement.notes.at(-1)?.due.timeUs ?? 0);
  timeline.cutNotesTo(judgement.notes.length);
  const lane = new LiveTake(timeline, take.kit, take.deviceOffsetMs);
  lane.sync();
  for (const { timeUs, status, data1, data2 } of take.messages)
    lane.message(timeUs, status, data1, data2);
  lane.advance(Infinity);
  return lane;
}
