import type { Stroke } from '../kit/stroke';
import { firstFrom } from '../time/first-from';
import type { JudgedNote } from './judged-note';

/**
 * The note an extra stroke is told with: the nearest in time, the earlier one of two equally near.
 * Strokes farther ahead of the first note than its reach belong to the count-in and to no note.
 *
 * @param notes in time order
 * @returns index of the note, or -1
 * @example nearestNote([{ due: { timeUs: 0, reachUs: 100000 } }], { timeUs: -100001 }) // => -1
 */
export function nearestNote(
  notes: readonly { readonly due: Pick<JudgedNote['due'], 'timeUs' | 'reachUs'> }[],
  { timeUs }: Pick<Stroke, 'timeUs'>,
): number {
  const first = notes[0]?.due;
  if (!first || timeUs < first.timeUs - first.reachUs) return -1;
  // Times are whole, so that the first note after a time is the first from the next microsecond on.
  const after = firstFrom(notes, timeOf, timeUs + 1);
  if (after === 0) return 0;
  const before = after - 1;
  if (after === notes.length) return before;
  return timeUs - notes[before]!.due.timeUs <= notes[after]!.due.timeUs - timeUs ? before : after;
}

const timeOf = ({ due }: { readonly due: Pick<JudgedNote['due'], 'timeUs'> }): number => due.timeUs;
