import { isAsWritten } from '../score/figures';
import type { LiveTake } from './live-take';

/**
 * The share of one cycle as written, extra strokes counting against it, 0 to 1; undefined where nothing in it counts.
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
  const isLeftOut = notes.some(({ due }) => leftOutBars.includes(due.note.bar));
  const counted = notes.length + extras.length;
  return isLeftOut || counted === 0 ? undefined : notes.filter(isAsWritten).length / counted;
}
