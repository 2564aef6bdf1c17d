import { layerStack } from '../phrase/layers/layer-stack';
import type { Note } from '../phrase/model/note';
import type { Phrase } from '../phrase/model/phrase';

/**
 * Whether the notes that a layer itself added or changed are right. They lack nothing when all of this holds:
 *
 * - Of the last LAST_OWN_NOTES of them at most two were wrong, of fewer than that at most one, of two none; the pickup aside.
 * - No note that came at least twice was wrong each of its last WRONG_IN_A_ROW times.
 * - The pickup played last was right as a whole, where the layer has a hand in it.
 *
 * A note that is wrong every time is never let through. One that is right with a chance of q is found right at one look
 * with a chance of, for a note alone in its layer that came 3, 8 times: q = 0.2: 0.10, 0.001; 0.5: 0.50, 0.14; 0.7: 0.78, 0.55;
 * 0.9: 0.97, 0.96 (binomial, computed); a pickup of two strokes with q squared.
 */

/** Chosen, not measured. */
export const LAST_OWN_NOTES = 8;
/** Chosen, not measured. */
export const WRONG_IN_A_ROW = 3;

/** How many wrong notes are let through among the last so many. */
const wrongAllowed = (notes: number): number => (notes >= LAST_OWN_NOTES ? 2 : notes > 2 ? 1 : 0);
/** One right note may be luck. */
export const FEWEST_OF_A_NOTE = 2;

/** What the layer's own notes lack. */
export interface OwnLack {
  /** The strokes of the pickup played last; undefined where all of them were right. */
  readonly pickup: OwnCount | undefined;
  /** The last notes; undefined where enough of them were right. */
  readonly notes: OwnCount | undefined;
  /** Positions of the cycle that were wrong each of the last times, ascending. */
  readonly positions: readonly number[];
}

export interface OwnCount {
  readonly right: number;
  /** Of those that came; the others have not come yet. */
  readonly wrong: number;
  readonly of: number;
}

/** Which notes of its own a layer has. */
export interface OwnParts {
  /** Strokes of the pickup that it added or changed. */
  readonly pickup: number;
  /** Whether there are any after the pickup. */
  readonly notes: boolean;
}

/**
 * Which notes a layer (1-based) of a phrase itself added or changed.
 *
 * @throws RangeError when the phrase has no such layer.
 * @example ownParts(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L', layers: [{ name: 'Sticking' }] }).value, 1) // => { pickup: 0, notes: true }
 */
export function ownParts(phrase: Phrase, layer: number): OwnParts {
  const known = partsOf.get(phrase) ?? new Map<number, OwnParts>();
  partsOf.set(phrase, known);
  const parts = known.get(layer) ?? findParts(phrase, layer);
  known.set(layer, parts);
  return parts;
}

/** By layer: the gate asks after every cycle, and a layer may have to be laid on far to find none. */
const partsOf = new WeakMap<Phrase, Map<number, OwnParts>>();

function findParts(phrase: Phrase, layer: number): OwnParts {
  const laid = layerStack(phrase, layer);
  const ownOf = (cycle: number) =>
    laid.pattern(cycle).filter(({ layers }) => layers.includes(layer)).length;
  // Swing marks no note.
  const marks = laid.phrase.layers[layer - 1]!.changes.some(({ kind }) => kind !== 'swing');
  const cycles = layer === 1 || marks ? Math.min(laid.period, laid.cyclesInReach) : 0;
  let cycle = 1;
  while (cycle <= cycles && ownOf(cycle) === 0) cycle++;
  return { pickup: ownOf(0), notes: cycle <= cycles };
}

/**
 * The own notes of a layer as they are settled, in the order of time.
 *
 * @example new OwnNotes({ pickup: 0, notes: true }).lack?.notes // => { right: 0, wrong: 0, of: 2 }
 */
export class OwnNotes {
  readonly #parts: OwnParts;
  #last: readonly boolean[] = [];
  /** The last times of each note of the cycle, by its place there. */
  readonly #times = new Map<string, OwnTimes>();
  /** Of the pickup played last, by place. */
  readonly #pickup = new Map<string, boolean>();

  constructor(parts: OwnParts) {
    this.#parts = parts;
  }

  add(note: Note, isRight: boolean): void {
    const place = `${note.position} ${note.graceStep} ${note.limb}`;
    if (note.cycle === 0) {
      this.#pickup.set(place, isRight);
      return;
    }
    const before = this.#times.get(place)?.right ?? [];
    const right = [...before, isRight].slice(-WRONG_IN_A_ROW);
    this.#times.set(place, { position: note.position, right });
    this.#last = [...this.#last, isRight].slice(-LAST_OWN_NOTES);
  }

  /** Undefined where they lack nothing. */
  get lack(): OwnLack | undefined {
    const pickup = this.#pickupLack();
    const notes = this.#notesLack();
    const positions = [...this.#times.values()]
      .filter(({ right }) => right.length > 1 && !right.includes(true))
      .map(({ position }) => position);
    if (!pickup && !notes && positions.length === 0) return undefined;
    return { pickup, notes, positions: [...new Set(positions)].sort((a, b) => a - b) };
  }

  #pickupLack(): OwnCount | undefined {
    const of = this.#parts.pickup;
    const right = [...this.#pickup.values()].filter(Boolean).length;
    return right < of ? { right, wrong: this.#pickup.size - right, of } : undefined;
  }

  #notesLack(): OwnCount | undefined {
    if (!this.#parts.notes) return undefined;
    const of = Math.max(FEWEST_OF_A_NOTE, this.#last.length);
    const right = this.#last.filter(Boolean).length;
    if (of - right <= wrongAllowed(of)) return undefined;
    return { right, wrong: this.#last.length - right, of };
  }

  /** A copy that goes on by itself. */
  fork(): OwnNotes {
    const other = this.withoutPickup(this.#parts);
    for (const [place, isRight] of this.#pickup) other.#pickup.set(place, isRight);
    return other;
  }

  /** A copy that goes on by itself and asks for no pickup. */
  withoutPickup(parts = { ...this.#parts, pickup: 0 }): OwnNotes {
    const other = new OwnNotes(parts);
    other.#last = this.#last;
    for (const [place, times] of this.#times) other.#times.set(place, times);
    return other;
  }

  /** What a new trial of the same layer begins with: the pickup played last. */
  afresh(): OwnNotes {
    const other = new OwnNotes(this.#parts);
    for (const [place, isRight] of this.#pickup) other.#pickup.set(place, isRight);
    return other;
  }
}

interface OwnTimes {
  readonly position: number;
  readonly right: readonly boolean[];
}
