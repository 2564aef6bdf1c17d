import { cycleNotes, pickupNotes } from '../../src/phrase/layers/expand';
import type { Note } from '../../src/phrase/model/note';
import type { Phrase } from '../../src/phrase/model/phrase';
import { VOICES } from '../../src/phrase/model/voice';

const LEVEL_SIGNS = { accent: '>', tap: '', ghost: '.' } as const;

/** A note as one word: its grace notes, limb and level: `R>` accent, `L.` ghost, `lR` flam, `l.l.R>` drag. */
const word = (notes: readonly Note[]): string =>
  notes
    .map(
      ({ limb, level, graceStep }) =>
        (graceStep > 0 ? limb.toLowerCase() : limb) + LEVEL_SIGNS[level],
    )
    .join('');

/**
 * Cycles of a layer as a table for the eye: a row for each voice, top of the staff first, a column
 * for each partial, `-` where the voice rests.
 */
export function noteGrid(phrase: Phrase, layer: number, cycles = 1, fromCycle = 1): string[] {
  const notes = cycleNotes(phrase, layer, fromCycle, cycles);
  const partials = Array.from({ length: phrase.cycle * cycles }, (_, i) => i);
  const at = (note: Note) => (note.cycle - fromCycle) * phrase.cycle + note.position - 1;
  return rows(notes, partials, at);
}

/** The pickup as such a table, its columns the partials before the downbeat. */
export function pickupGrid(phrase: Phrase, layer: number): string[] {
  const notes = pickupNotes(phrase, layer);
  const first = Math.min(0, ...notes.map((note) => note.position));
  const partials = Array.from({ length: -first }, (_, i) => first + i);
  return rows(notes, partials, (note) => note.position);
}

function rows(
  notes: readonly Note[],
  partials: readonly number[],
  at: (note: Note) => number,
): string[] {
  return VOICES.filter((voice) => notes.some((note) => note.voice === voice)).map((voice) => {
    const inRow = notes.filter((note) => note.voice === voice);
    const words = partials.map(
      (partial) => word(inRow.filter((note) => at(note) === partial)) || '-',
    );
    return `${voice}: ${words.join(' ')}`;
  });
}
