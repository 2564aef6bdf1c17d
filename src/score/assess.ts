import { boundariesOf } from '../kit/boundaries-of';
import type { Kit } from '../kit/kit';
import type { RawMessage } from '../kit/raw-message';
import { readStrokes, type KitStrokes } from '../kit/read-strokes';
import type { Stroke } from '../kit/stroke';
import { DEFAULT_REACH_MS } from '../match/hit-window';
import { matchTake } from '../match/match-take';
import type { Plan } from '../match/plan';
import type { TimedNote } from '../match/timed-note';
import { timedNotes } from '../match/timed-notes';
import { judge, type Judgement } from './judge';
import { requiredInPlan } from './required-in-plan';

/**
 * Judges a take against its plan. `strokes` are those that count: what is the kit's fault has been set
 * aside. The phrase repeats until the last stroke, or the note it answers where that is due later;
 * what would have come after was not played to and is not missed.
 */
export function assess(plan: Plan, strokes: readonly Stroke[], kit: Kit): Judgement {
  const reachUs = (plan.windows.reachMs ?? DEFAULT_REACH_MS) * 1000;
  const lastUs = strokes.reduce((last, stroke) => Math.max(last, stroke.timeUs), -Infinity);
  const inReach = timedNotes(plan, lastUs + reachUs);
  const matching = matchTake(inReach, strokes);
  let end = inReach.length;
  while (end > 0 && matching.strokeOfNote[end - 1]! < 0 && inReach[end - 1]!.timeUs > lastUs) end--;
  const notes = upToTogether(inReach, end);
  return judge(
    notes,
    strokes,
    { ...matching, strokeOfNote: matching.strokeOfNote.subarray(0, notes.length) },
    (pad) => boundariesOf(kit, pad),
    requiredInPlan(plan),
  );
}

/** A take read by a kit and judged. */
export interface AssessedMessages {
  readonly strokes: KitStrokes;
  readonly judgement: Judgement;
}

/** The same from raw messages, times from bar 1 beat 1: what is the kit's fault is set aside first. */
export function assessMessages(
  plan: Plan,
  messages: readonly RawMessage[],
  kit: Kit,
): AssessedMessages {
  const strokes = readStrokes(messages, kit);
  const counted = strokes.strokes.filter((_, j) => strokes.setAside[j] === 0);
  return { strokes, judgement: assess(plan, counted, kit) };
}

/** The first `end` notes and whatever is due together with the last of them. */
function upToTogether(notes: readonly TimedNote[], end: number): readonly TimedNote[] {
  const last = notes[end - 1];
  let until = end;
  while (last && until < notes.length && notes[until]!.timeUs === last.timeUs) until++;
  return notes.slice(0, until);
}
