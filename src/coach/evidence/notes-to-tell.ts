import { cycleNotes } from '../../phrase/layers/expand';
import type { Note } from '../../phrase/model/note';
import type { Phrase } from '../../phrase/model/phrase';
import { FEWEST_UNITS, UNIT_NOTES, unitsOf } from './units';

/** As many as there are at least in as few units as anything about time is told from. */
export const LEAST_NOTES = FEWEST_UNITS * UNIT_NOTES;

/**
 * How many notes of a layer (1-based), from its first on, make as many units as anything about time is told from: where its
 * bars and cycles have more notes than a unit needs, more than LEAST_NOTES.
 */
export function notesToTell(phrase: Phrase, layer: number): number {
  const notes: Note[] = [];
  const units = (many: number) =>
    unitsOf(notes.slice(0, many).map((note) => ({ note, passage: 0 }))).count;
  for (let cycle = 1; cycle <= LEAST_NOTES && units(Infinity) < FEWEST_UNITS; cycle++)
    notes.push(...cycleNotes(phrase, layer, cycle, 1));
  let told = LEAST_NOTES;
  while (told < notes.length && units(told) < FEWEST_UNITS) told++;
  return told;
}
