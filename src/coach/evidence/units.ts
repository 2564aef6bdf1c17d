import { cycleNotes } from '../../phrase/layers/expand';
import type { Note } from '../../phrase/model/note';
import type { Phrase } from '../../phrase/model/phrase';

/** Fewer notes make no mean worth having. Chosen, not measured: with 8 ms of spread its error is 2.3 ms. */
export const UNIT_NOTES = 12;
/** Fewer units say nothing about time: Student's t is dear below (shared coaching notes, 5.4). Chosen, not measured. */
export const FEWEST_UNITS = 6;
/** As many as there are at least in as few units as anything about time is told from. */
export const LEAST_NOTES = FEWEST_UNITS * UNIT_NOTES;

/**
 * Stretches of a take whose means are taken as independent of each other, which strokes are not: the lag-1
 * autocorrelation of offsets to a click is 0.3 to 0.7, computed from takes of professionals.
 */
export interface Units {
  readonly count: number;
  /** Unit (0-based) of each note. */
  readonly of: Int32Array;
}

/** Where in bars and cycles a note lies. */
interface PlacedNote {
  readonly note: Pick<Note, 'bar' | 'cycle'>;
  readonly passage: number;
}

/** Bars or cycles, as many together as have so many notes: whichever gives more of them. Notes in time order. */
export function unitsOf(notes: readonly PlacedNote[], fewest = UNIT_NOTES): Units {
  const bars = gathered(notes, fewest, ({ note }) => note.bar);
  const cycles = gathered(notes, fewest, ({ passage, note }) => passage * 1e6 + note.cycle);
  return cycles.count > bars.count ? cycles : bars;
}

function gathered(
  notes: readonly PlacedNote[],
  fewest: number,
  keyOf: (due: PlacedNote) => number,
): Units {
  const of = new Int32Array(notes.length);
  let unit = 0;
  let first = 0;
  let key = NaN;
  notes.forEach((due, i) => {
    const next = keyOf(due);
    if (next !== key && i - first >= fewest) {
      unit++;
      first = i;
    }
    key = next;
    of[i] = unit;
  });
  // A rest that is too short belongs to the unit before.
  if (unit > 0 && notes.length - first < fewest) of.fill(--unit, first);
  return { count: notes.length < fewest ? 0 : unit + 1, of };
}

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
