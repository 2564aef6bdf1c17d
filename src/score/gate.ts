import { isAsWritten } from './figures';
import type { Judgement } from './judge';
import type { JudgedNote } from './judged-note';
import { nearestNote } from './nearest-note';
import { cleanNotesNeeded, wilson } from './wilson';

/**
 * The gate: a layer is passed when the Wilson lower bound (95 %, two-sided) of
 * as written / (notes + extra strokes) over the last cycles is at or above the threshold.
 *
 * The last cycles are as few as hold GATE_MIN_NOTES notes and MIN_CYCLES cycles of the layer played last,
 * or all there are when there are fewer; the bound itself asks more of few notes than of many.
 * Consequences of the defaults: played without a fault, 22 notes pass (n / (n + z²) ≥ 0.85); in a
 * full 60 notes three faults still pass and four do not. A stricter threshold widens the window to
 * the notes it needs, since at 0.95 even 60 faultless notes would not reach it.
 */

/** Chosen, not measured: about one fault in seven is what "it sits" still leaves room for. */
export const GATE_THRESHOLD = 0.85;
/** Chosen, not measured: some twenty seconds of playing. */
export const GATE_MIN_NOTES = 60;
/** Chosen, not measured: once may be luck. */
export const MIN_CYCLES = 2;

/** Chosen, not measured: 0.99 already takes 381 faultless notes. */
export const STRICTEST = 0.99;

export interface GateOptions {
  /** Above 0, up to STRICTEST. */
  readonly threshold?: number;
  /** Where the last whole cycle ends, integer microseconds: what is due later is left out. */
  readonly endUs?: number;
}

/** One cycle's counts. */
export interface CycleTally {
  readonly notes: number;
  readonly asWritten: number;
  readonly extras: number;
}

export interface Gate {
  readonly passed: boolean;
  /** Share as written, extra strokes counting against it, 0 to 1; undefined when nothing was due. */
  readonly asWritten: number | undefined;
  readonly lowerBound: number | undefined;
  readonly threshold: number;
  /** Notes and extra strokes in the window. */
  readonly notes: number;
  readonly extras: number;
  readonly cycles: number;
  /** The window's cycles, oldest first. */
  readonly tallies: readonly CycleTally[];
}

/**
 * The gate of the layer played last, since another was. A pickup, which has no cycle, counts with the first one.
 *
 * @throws RangeError when the threshold is not above 0 and at most STRICTEST.
 * @example gate({ notes: [], extras: [] }).passed // => false
 */
export function gate(judgement: Judgement, options: GateOptions = {}): Gate {
  const endUs = options.endUs ?? Infinity;
  const due = judgement.notes.filter((note) => note.due.timeUs < endUs);
  const from = firstPassageOfLastLayer(due);
  const byCycle = new Map<string, { notes: number; asWritten: number; extras: number }>();
  const tallyOf = ({ due: { passage, note } }: JudgedNote) => {
    const cycle = `${passage}:${Math.max(1, note.cycle)}`;
    const tally = byCycle.get(cycle) ?? { notes: 0, asWritten: 0, extras: 0 };
    byCycle.set(cycle, tally);
    return tally;
  };
  for (const note of due) {
    if (note.due.passage < from) continue;
    const tally = tallyOf(note);
    tally.notes++;
    if (isAsWritten(note)) tally.asWritten++;
  }
  for (const extra of judgement.extras) {
    if (extra.timeUs >= endUs) continue;
    const near = due[nearestNote(due, extra)];
    if (near && near.due.passage >= from) tallyOf(near).extras++;
  }
  return gateOf([...byCycle.values()], options.threshold ?? GATE_THRESHOLD);
}

/**
 * The gate over cycles already counted, oldest first.
 *
 * @example gateOf([{ notes: 11, asWritten: 11, extras: 0 }, { notes: 11, asWritten: 11, extras: 0 }]).passed // => true
 */
export function gateOf(cycles: readonly CycleTally[], threshold = GATE_THRESHOLD): Gate {
  if (!(threshold > 0 && threshold <= STRICTEST))
    throw new RangeError(`a threshold is above 0 and at most ${STRICTEST}, got ${threshold}`);
  const wanted = Math.max(GATE_MIN_NOTES, cleanNotesNeeded(threshold));
  let notes = 0;
  let extras = 0;
  let asWritten = 0;
  let start = cycles.length;
  while (start > 0 && (notes < wanted || cycles.length - start < MIN_CYCLES)) {
    const cycle = cycles[--start]!;
    notes += cycle.notes;
    extras += cycle.extras;
    asWritten += cycle.asWritten;
  }
  const lowerBound = wilson(asWritten, notes + extras)?.lower;
  return {
    passed: lowerBound !== undefined && lowerBound >= threshold,
    asWritten: notes + extras > 0 ? asWritten / (notes + extras) : undefined,
    lowerBound,
    threshold,
    notes,
    extras,
    cycles: cycles.length - start,
    tallies: cycles.slice(start),
  };
}

/**
 * How many cycles without a fault are still needed to pass; 0 once passed.
 *
 * @throws RangeError when a cycle has no notes.
 * @example cleanCyclesToPass(5, gateOf([])) // => 5
 */
export function cleanCyclesToPass(notesPerCycle: number, soFar: Gate): number {
  if (!(notesPerCycle >= 1)) throw new RangeError('a cycle needs at least one note');
  const clean = { notes: notesPerCycle, asWritten: notesPerCycle, extras: 0 };
  const cycles = [...soFar.tallies];
  let needed = 0;
  while (!gateOf(cycles, soFar.threshold).passed) {
    cycles.push(clean);
    needed++;
  }
  return needed;
}

/** The last layer may have been played on through several passages, as when only the tempo changed. */
function firstPassageOfLastLayer(notes: readonly JudgedNote[]): number {
  const last = notes.at(-1)?.due.layer;
  return notes.reduce(
    (from, { due }) => (due.layer === last ? from : Math.max(from, due.passage + 1)),
    0,
  );
}
