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
import { requiredLevels } from './required-levels';

/** What is due up to and including a time of a take, in time order. */
export type NotesUpTo = (plan: Plan, endUs: number) => readonly TimedNote[];

/**
 * Judges a take against its plan. `strokes` are those that count: what is the kit's fault has been set
 * aside; `withoutLevel` are those of them that tell no level. The phrase repeats until the last stroke, or the note it answers where that is due later;
 * what would have come after was not played to and is not missed.
 *
 * @param notesUpTo what is due up to a time, where that is not what is written
 * @example assess({ phrase: checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, passages: [{ fromBar: 1, layer: 1 }], tempo: steadyTempo(90), windows: {} }, [{ timeUs: 170000, voice: 'snare', velocity: 64, pad: 38 }], GENERAL_MIDI).notes.map(({ verdict }) => verdict) // => ['missed', 'in time']
 */
export function assess(
  plan: Plan,
  strokes: readonly Stroke[],
  kit: Kit,
  withoutLevel: ReadonlySet<Stroke> = new Set(),
  notesUpTo: NotesUpTo = timedNotes,
): Judgement {
  const reachUs = (plan.windows.reachMs ?? DEFAULT_REACH_MS) * 1000;
  const lastUs = strokes.reduce((last, stroke) => Math.max(last, stroke.timeUs), -Infinity);
  const inReach = notesUpTo(plan, lastUs + reachUs);
  const matching = matchTake(inReach, strokes);
  let end = inReach.length;
  while (end > 0 && matching.strokeOfNote[end - 1]! < 0 && inReach[end - 1]!.timeUs > lastUs) end--;
  const notes = upToTogether(inReach, end);
  return judge(
    notes,
    strokes,
    { ...matching, strokeOfNote: matching.strokeOfNote.subarray(0, notes.length) },
    (stroke) => (withoutLevel.has(stroke) ? undefined : boundariesOf(kit, stroke.pad)),
    requiredLevels(plan),
  );
}

/** A take read by a kit and judged. */
export interface AssessedMessages {
  readonly strokes: KitStrokes;
  readonly judgement: Judgement;
}

/**
 * The same from raw messages, times from bar 1 beat 1: what is the kit's fault is set aside first.
 *
 * @param notesUpTo what is due up to a time, where that is laid out already
 * @example assessMessages({ phrase: checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, passages: [{ fromBar: 1, layer: 1 }], tempo: steadyTempo(90), windows: {} }, [{ timeUs: 4000, status: 0x99, data1: 38, data2: 64 }], GENERAL_MIDI).judgement.notes.map(({ offsetUs }) => offsetUs) // => [4000]
 */
export function assessMessages(
  plan: Plan,
  messages: readonly RawMessage[],
  kit: Kit,
  notesUpTo?: NotesUpTo,
): AssessedMessages {
  const strokes = readStrokes(messages, kit);
  const counted = strokes.strokes.filter((_, j) => strokes.setAside[j] === 0);
  return { strokes, judgement: assess(plan, counted, kit, strokes.withoutLevel, notesUpTo) };
}

/** The first `end` notes and whatever is due together with the last of them. */
function upToTogether(notes: readonly TimedNote[], end: number): readonly TimedNote[] {
  const last = notes[end - 1];
  let until = end;
  while (last && until < notes.length && notes[until]!.timeUs === last.timeUs) until++;
  return notes.slice(0, until);
}
