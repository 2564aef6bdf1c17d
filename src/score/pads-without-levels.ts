import type { JudgedNote } from './judged-note';
import { asksForLevel } from './level-verdict';

/** A pad that sends one velocity whatever is struck, where levels were asked for. */
export interface PadWithoutLevels {
  /** MIDI note number. */
  readonly pad: number;
  readonly velocity: number;
  /** Whose level was not judged. */
  readonly notes: number;
  /** Whether it has sent no other up to the last of the notes. */
  readonly still: boolean;
}

/**
 * The pads on which no level was judged though the notes ask for one, those with the most notes first.
 *
 * @example padsWithoutLevels([]) // => []
 */
export function padsWithoutLevels(notes: readonly JudgedNote[]): PadWithoutLevels[] {
  if (!notes.some(({ stroke, levelVerdict }) => stroke && levelVerdict === undefined)) return [];
  const pads = new Map<number, { pad: number; velocity: number; notes: number; still: boolean }>();
  for (const { due, asked, stroke, levelVerdict } of notes) {
    if (!stroke || !asksForLevel(due.note.voice, asked)) continue;
    const { pad, velocity } = stroke;
    const before = pads.get(pad);
    const without = levelVerdict === undefined;
    if (before) {
      if (without) before.notes++;
      else before.still = false;
    } else pads.set(pad, { pad, velocity, notes: without ? 1 : 0, still: without });
  }
  return [...pads.values()]
    .filter((one) => one.notes > 0)
    .sort((a, b) => b.notes - a.notes || a.pad - b.pad);
}
