import type { Stroke } from '../kit/stroke';
import { voiceNumber } from '../phrase/model/voice';
import { Assignment } from './assignment';
import type { NoteColumns, StrokeColumns } from './columns';
import { indicesAlone, matchingOf, type Matching } from './matching';
import { checkReach } from './pair-weight';
import { safePairs } from './safe-pairs';
import type { TimedNote } from './timed-note';

/**
 * The matching of a whole take: the one-to-one assignment of least total cost, where a missed note
 * and an extra stroke cost 1 each and a pair 2·|offset|/reach, plus 1 if the voices differ. Ties go by the
 * order pair-weight.ts states.
 *
 * @throws RangeError when a reach is not above 0 and at most half a second.
 */
export function matchColumns(notes: NoteColumns, strokes: StrokeColumns): Matching {
  const reachUs = notes.reachUs[0] ?? 1;
  checkReach(reachUs);
  for (let i = 1; i < notes.reachUs.length; i++)
    if (notes.reachUs[i] !== reachUs) {
      notes.reachUs.forEach(checkReach);
      return assign(notes, strokes);
    }
  const matching = safePairs(notes, strokes, reachUs);
  const freeNotes = indicesAlone(matching.strokeOfNote);
  const freeStrokes = indicesAlone(matching.noteOfStroke);
  const rest = assign(
    {
      timeUs: Float64Array.from(freeNotes.map((i) => notes.timeUs[i]!)),
      voice: Uint8Array.from(freeNotes.map((i) => notes.voice[i]!)),
      reachUs: new Float64Array(freeNotes.length).fill(reachUs),
    },
    {
      timeUs: Float64Array.from(freeStrokes.map((j) => strokes.timeUs[j]!)),
      voice: Uint8Array.from(freeStrokes.map((j) => strokes.voice[j]!)),
      velocity: Uint8Array.from(freeStrokes.map((j) => strokes.velocity[j]!)),
    },
  );
  rest.strokeOfNote.forEach((free, at) => {
    if (free < 0) return;
    matching.strokeOfNote[freeNotes[at]!] = freeStrokes[free]!;
    matching.noteOfStroke[freeStrokes[free]!] = freeNotes[at]!;
  });
  return matching;
}

/** The assignment of all notes and strokes, whatever their reach. */
export function assign(notes: NoteColumns, strokes: StrokeColumns): Matching {
  const noteCount = notes.timeUs.length;
  const strokeCount = strokes.timeUs.length;
  const widest = notes.reachUs.reduce((most, reach) => Math.max(most, reach), 1);
  const assignment = new Assignment(widest, noteCount, strokeCount);
  notes.timeUs.forEach((timeUs, i) =>
    assignment.addNote(timeUs, notes.voice[i]!, notes.reachUs[i]!),
  );
  strokes.timeUs.forEach((timeUs, j) =>
    assignment.addStroke(timeUs, strokes.voice[j]!, strokes.velocity[j]!),
  );
  return {
    strokeOfNote: assignment.strokeOfNote.subarray(0, noteCount),
    noteOfStroke: assignment.noteOfStroke.subarray(0, strokeCount),
  };
}

/**
 * The same for notes in time order and strokes in any order; indices are those of the arguments.
 *
 * @example [...matchTake(timedNotes({ phrase: checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, passages: [{ fromBar: 1, layer: 1 }], tempo: steadyTempo(90), windows: {} }, 400000), [{ timeUs: 170000, voice: 'snare', velocity: 64, pad: 38 }]).strokeOfNote] // => [-1, 0, -1]
 */
export function matchTake(notes: readonly TimedNote[], strokes: readonly Stroke[]): Matching {
  const order = strokes.map((_, j) => j).sort((a, b) => strokes[a]!.timeUs - strokes[b]!.timeUs);
  const sorted = matchColumns(noteColumns(notes), {
    timeUs: Float64Array.from(order, (j) => strokes[j]!.timeUs),
    voice: Uint8Array.from(order, (j) => voiceNumber(strokes[j]!.voice)),
    velocity: Uint8Array.from(order, (j) => strokes[j]!.velocity),
  });
  return matchingOf(
    sorted.strokeOfNote.map((s) => (s < 0 ? -1 : order[s]!)),
    strokes.length,
  );
}

function noteColumns(notes: readonly TimedNote[]): NoteColumns {
  const { length } = notes;
  const columns = {
    timeUs: new Float64Array(length),
    voice: new Uint8Array(length),
    reachUs: new Float64Array(length),
  };
  notes.forEach(({ note, timeUs, reachUs }, i) => {
    columns.timeUs[i] = timeUs;
    columns.voice[i] = voiceNumber(note.voice);
    columns.reachUs[i] = reachUs;
  });
  return columns;
}
