import type { Stroke } from '../kit/stroke';
import { voiceNumber } from '../phrase/voice';
import { Assignment } from './assignment';
import type { Matching } from './matching';
import type { TimedNote } from './timed-note';

/** Notes or strokes as columns, in time order. */
export interface NoteColumns {
  readonly timeUs: Float64Array;
  readonly voice: Uint8Array;
  readonly reachUs: Float64Array;
}
export interface StrokeColumns {
  readonly timeUs: Float64Array;
  readonly voice: Uint8Array;
  readonly velocity: Uint8Array;
}

/**
 * The matching of a whole take: the one-to-one assignment of least total cost, where a missed note
 * and an extra stroke cost 1 each and a pair 2·|offset|/reach, plus 1 if the voices differ. Ties go by the
 * order pair-weight.ts states.
 *
 * @throws RangeError when a reach is not above 0 and at most half a second.
 */
export function matchColumns(notes: NoteColumns, strokes: StrokeColumns): Matching {
  const noteCount = notes.timeUs.length;
  const strokeCount = strokes.timeUs.length;
  let widest = 1;
  for (const reach of notes.reachUs) if (reach > widest) widest = reach;
  const assignment = new Assignment(widest, noteCount, strokeCount);
  for (let i = 0; i < noteCount; i++)
    assignment.addNote(notes.timeUs[i]!, notes.voice[i]!, notes.reachUs[i]!);
  for (let j = 0; j < strokeCount; j++)
    assignment.addStroke(strokes.timeUs[j]!, strokes.voice[j]!, strokes.velocity[j]!);
  return {
    strokeOfNote: assignment.strokeOfNote.subarray(0, noteCount),
    noteOfStroke: assignment.noteOfStroke.subarray(0, strokeCount),
  };
}

/** The same for notes in time order and strokes in any order; indices are those of the arguments. */
export function matchTake(notes: readonly TimedNote[], strokes: readonly Stroke[]): Matching {
  const order = strokes.map((_, j) => j).sort((a, b) => strokes[a]!.timeUs - strokes[b]!.timeUs);
  const sorted = matchColumns(
    {
      timeUs: Float64Array.from(notes, (due) => due.timeUs),
      voice: Uint8Array.from(notes, (due) => voiceNumber(due.note.voice)),
      reachUs: Float64Array.from(notes, (due) => due.reachUs),
    },
    {
      timeUs: Float64Array.from(order, (j) => strokes[j]!.timeUs),
      voice: Uint8Array.from(order, (j) => voiceNumber(strokes[j]!.voice)),
      velocity: Uint8Array.from(order, (j) => strokes[j]!.velocity),
    },
  );
  const strokeOfNote = sorted.strokeOfNote.map((s) => (s < 0 ? -1 : order[s]!));
  const noteOfStroke = new Int32Array(strokes.length).fill(-1);
  strokeOfNote.forEach((j, i) => {
    if (j >= 0) noteOfStroke[j] = i;
  });
  return { strokeOfNote, noteOfStroke };
}
