import type { TimedNote } from '../../match/timed-note';

/** Fewer notes make no mean worth having. Chosen, not measured: with 8 ms of spread its error is 2.3 ms. */
export const UNIT_NOTES = 12;
/** Fewer units say nothing about time: Student's t is dear below (shared coaching notes, 5.4). Chosen, not measured. */
export const FEWEST_UNITS = 6;

/**
 * Stretches of a take whose means are taken as independent of each other, which strokes are not: the lag-1
 * autocorrelation of offsets to a click is 0.3 to 0.7, computed from takes of professionals.
 */
export interface Units {
  readonly count: number;
  /** How many notes the first has that is whole, as short as it may be; all of them before there is one. */
  readonly notes: number;
  /** Unit (0-based) of each note. */
  readonly of: Int32Array;
}

/** Bars or cycles, as many together as have so many notes: whichever gives more of them. Notes in time order. */
export function unitsOf(notes: readonly TimedNote[], fewest = UNIT_NOTES): Units {
  const bars = gathered(notes, fewest, ({ note }) => note.bar);
  const cycles = gathered(notes, fewest, ({ passage, note }) => passage * 1e6 + note.cycle);
  const units = cycles.count > bars.count ? cycles : bars;
  // Where there are as many of both so far, those that are shorter will be more.
  return { ...units, notes: Math.min(cycles.notes, bars.notes) };
}

function gathered(
  notes: readonly TimedNote[],
  fewest: number,
  keyOf: (due: TimedNote) => number,
): Units {
  const of = new Int32Array(notes.length);
  let ofFirst = notes.length;
  let unit = 0;
  let first = 0;
  let key = NaN;
  notes.forEach((due, i) => {
    const next = keyOf(due);
    if (next !== key && i - first >= fewest) {
      if (unit === 0) ofFirst = i;
      unit++;
      first = i;
    }
    key = next;
    of[i] = unit;
  });
  // A rest that is too short belongs to the unit before.
  if (unit > 0 && notes.length - first < fewest) of.fill(--unit, first);
  return { count: notes.length < fewest ? 0 : unit + 1, notes: ofFirst, of };
}
