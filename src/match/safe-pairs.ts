import { firstAtOrAfter } from '../time/first-from';
import type { NoteColumns, StrokeColumns } from './columns';
import { indicesAlone, type Matching } from './matching';

/**
 * Pairs of a whole take that belong to its only least-cost matching whatever the rest does, found in
 * one sweep; in even playing that is nearly all of them. A note and a stroke of its voice are such a
 * pair when they are nearer to each other than half the reach and half the way to the voice's next
 * note, no other stroke is as near, and nobody left over could want either.
 *
 * Why it holds: give both ends of a pair the price |offset| (a missed note and an extra stroke cost
 * `reach`, a pair 2·|offset|, plus `reach` if the voices differ). Then no other pair of theirs costs less
 * than its two prices, and by linear programming duality no matching is cheaper; as the inequalities are
 * strict, none is as cheap either.
 *
 * All notes must have one reach. Notes and strokes left at -1 remain to be matched among themselves.
 */
export function safePairs(notes: NoteColumns, strokes: StrokeColumns, reachUs: number): Matching {
  const sweep = new Sweep(notes, strokes, reachUs);
  sweep.claim();
  sweep.release();
  return sweep;
}

class Sweep implements Matching {
  readonly strokeOfNote: Int32Array;
  readonly noteOfStroke: Int32Array;
  readonly #notes: NoteColumns;
  readonly #strokes: StrokeColumns;
  readonly #reachUs: number;

  constructor(notes: NoteColumns, strokes: StrokeColumns, reachUs: number) {
    this.#notes = notes;
    this.#strokes = strokes;
    this.#reachUs = reachUs;
    this.strokeOfNote = new Int32Array(notes.timeUs.length).fill(-1);
    this.noteOfStroke = new Int32Array(strokes.timeUs.length).fill(-1);
  }

  /**
   * Every stroke claims the note of its voice that it is clearly nearest to. Where two claim one, the second is
   * left over and wants it, so that neither is safe.
   */
  claim(): void {
    const { strokeOfNote, noteOfStroke } = this;
    const noteUs = this.#notes.timeUs;
    const noteVoice = this.#notes.voice;
    const strokeUs = this.#strokes.timeUs;
    const strokeVoice = this.#strokes.voice;
    const closestUs = distancesToOwn(noteUs, noteVoice);
    const widest = this.#reachUs / 2;
    const noteCount = noteUs.length;
    let lo = 0;
    for (let j = 0; j < strokeUs.length; j++) {
      const us = strokeUs[j]!;
      const voice = strokeVoice[j]!;
      while (lo < noteCount && noteUs[lo]! <= us - widest) lo++;
      for (let i = lo; i < noteCount; i++) {
        const offset = us - noteUs[i]!;
        if (offset <= -widest) break;
        if (noteVoice[i] !== voice || Math.abs(offset) >= closestUs[i]!) continue;
        if (strokeOfNote[i] === -1) {
          strokeOfNote[i] = j;
          noteOfStroke[j] = i;
        }
        break;
      }
    }
  }

  /** Lets go of pairs that somebody left over could want, until nobody does. */
  release(): void {
    const { strokeOfNote, noteOfStroke } = this;
    const freeNotes = indicesAlone(strokeOfNote);
    const freeStrokes = indicesAlone(noteOfStroke);
    const part = (i: number, j: number) => {
      strokeOfNote[i] = -1;
      noteOfStroke[j] = -1;
      freeNotes.push(i);
      freeStrokes.push(j);
    };
    for (;;) {
      const note = freeNotes.pop();
      if (note !== undefined) {
        this.#eachWanted(this.#notes, note, this.#strokes, noteOfStroke, (j) =>
          part(noteOfStroke[j]!, j),
        );
        continue;
      }
      const stroke = freeStrokes.pop();
      if (stroke === undefined) return;
      this.#eachWanted(this.#strokes, stroke, this.#notes, strokeOfNote, (i) =>
        part(i, strokeOfNote[i]!),
      );
    }
  }

  /** Calls `wanted` with every paired member of the other side that `one`, at its highest price, might take. */
  #eachWanted(
    side: NoteColumns | StrokeColumns,
    one: number,
    others: NoteColumns | StrokeColumns,
    partners: Int32Array,
    wanted: (other: number) => void,
  ): void {
    const us = side.timeUs[one]!;
    const voice = side.voice[one]!;
    const { timeUs } = others;
    for (
      let k = firstAtOrAfter(timeUs, timeUs.length, us - this.#reachUs);
      k < timeUs.length;
      k++
    ) {
      if (timeUs[k]! > us + this.#reachUs) return;
      if (partners[k]! < 0) continue;
      const price = Math.abs(timeUs[k]! - side.timeUs[partners[k]!]!);
      const same = others.voice[k] === voice;
      const cost = 2 * Math.abs(timeUs[k]! - us) + (same ? 0 : this.#reachUs);
      if (price + this.#reachUs >= cost) wanted(k);
    }
  }
}

/** Half the way from each note to the nearest other note of its voice. */
function distancesToOwn(noteUs: Float64Array, noteVoice: Uint8Array): Float64Array {
  const half = new Float64Array(noteUs.length).fill(Infinity);
  const last = new Int32Array(256).fill(-1);
  for (let i = 0; i < noteUs.length; i++) {
    const before = last[noteVoice[i]!]!;
    last[noteVoice[i]!] = i;
    if (before < 0) continue;
    const gap = (noteUs[i]! - noteUs[before]!) / 2;
    half[i] = gap;
    if (gap < half[before]!) half[before] = gap;
  }
  return half;
}
