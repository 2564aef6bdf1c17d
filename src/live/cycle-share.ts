import { isSilentIn } from '../match/plan';
import type { TimedNote } from '../match/timed-note';
import { isAsWritten } from '../score/figures';
import { nearestNote } from '../score/nearest-note';
import type { LiveTake } from './live-take';

/**
 * The share of one cycle as written, extra strokes counting against it, 0 to 1; undefined where less than half of it has
 * a click, or nothing in it counts. Where there is no click nobody is held to it.
 *
 * @param at of all laid out, 0-based
 * @param leftOutBars bars that do not count, 1-based
 */
export function cycleShare(
  take: LiveTake,
  at: number,
  leftOutBars: readonly number[] = [],
): number | undefined {
  const { timeline } = take;
  const { notes, extras } = take.judgement(
    timeline.cycles[at]!.firstNote,
    Math.min(timeline.endNote(at), take.noteCount),
  );
  if (notes.some(({ due }) => leftOutBars.includes(due.note.bar))) return undefined;
  const { plan } = timeline;
  const isHeard = ({ note }: TimedNote) => !isSilentIn(plan, note.bar);
  const heard = notes.filter(({ due }) => isHeard(due));
  const beside = extras.filter((extra) => {
    const near = notes[nearestNote(notes, extra)];
    return near === undefined || isHeard(near.due);
  });
  const counted = heard.length + beside.length;
  if (2 * heard.length < notes.length || counted === 0) return undefined;
  return heard.filter(isAsWritten).length / counted;
}
