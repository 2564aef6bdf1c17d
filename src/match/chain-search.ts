import type { AssignmentColumns } from './assignment-columns';
import { enlarge } from './enlarge';
import { canAnswer, WEIGHT_WIDTH } from './pair-weight';
import { compareRows, subtractRow } from './weight-row';

const WIDTH = WEIGHT_WIDTH;
const ZERO = new Float64Array(WIDTH);

/**
 * Finds the cheapest chain of changes that gives one member of a side its place in the optimum, and
 * makes it: Dijkstra over alternations of pairs not made and pairs made, on prices that are feasible.
 * The side that the chain starts from is near, the other far; distances are what the total would lose.
 */
export class ChainSearch {
  readonly #columns: AssignmentColumns;
  readonly #fromStrokes: boolean;
  readonly #pair: (note: number, stroke: number) => void;
  // Valid for the far members whose stamp is the current search.
  #search = 0;
  #stamp = new Int32Array(0);
  #settled = new Uint8Array(0);
  #parent = new Int32Array(0);
  #distance = new Float64Array(0);
  #seen = new Int32Array(64);
  #seenCount = 0;
  readonly #end = new Float64Array(WIDTH);
  readonly #trial = new Float64Array(WIDTH);

  constructor(
    columns: AssignmentColumns,
    near: 'notes' | 'strokes',
    pair: (note: number, stroke: number) => void,
  ) {
    this.#columns = columns;
    this.#fromStrokes = near === 'strokes';
    this.#pair = pair;
    this.reserve();
  }

  /** Makes as much room as the columns have. */
  reserve(): void {
    const { noteUs, strokeUs } = this.#columns;
    const size = this.#fromStrokes ? noteUs.length : strokeUs.length;
    if (size <= this.#stamp.length) return;
    this.#stamp = enlarge(this.#stamp, new Int32Array(size));
    this.#settled = enlarge(this.#settled, new Uint8Array(size));
    this.#parent = enlarge(this.#parent, new Int32Array(size));
    this.#distance = enlarge(this.#distance, new Float64Array(size * WIDTH));
  }

  /**
   * Places `root`, whose price is the most any far member would leave it and above nothing; the near
   * member left alone by that, which may be `root`, or -1.
   */
  place(root: number): number {
    const near = this.#nearPrice;
    const partner = this.#farPartner;
    const distance = this.#distance;
    const end = this.#end;
    for (let k = 0; k < WIDTH; k++) end[k] = near[root * WIDTH + k]!;
    let endFar = -1;
    let leftAlone = root;
    this.#search++;
    this.#seenCount = 0;
    this.#relax(root, ZERO, 0);
    for (;;) {
      const far = this.#nearestUnsettled();
      if (far < 0 || compareRows(distance, far * WIDTH, end, 0) >= 0) break;
      this.#settled[far] = 1;
      const next = partner[far]!;
      if (next < 0) {
        for (let k = 0; k < WIDTH; k++) end[k] = distance[far * WIDTH + k]!;
        endFar = far;
        leftAlone = -1;
        break;
      }
      const trial = this.#trial;
      for (let k = 0; k < WIDTH; k++)
        trial[k] = distance[far * WIDTH + k]! + near[next * WIDTH + k]!;
      if (compareRows(trial, 0, end, 0) < 0) {
        end.set(trial);
        endFar = far;
        leftAlone = next;
      }
      this.#relax(next, distance, far * WIDTH);
    }
    this.#updatePrices(root);
    this.#makeChain(endFar, leftAlone);
    return leftAlone;
  }

  get #nearPrice(): Float64Array {
    return this.#fromStrokes ? this.#columns.strokePrice : this.#columns.notePrice;
  }
  get #farPrice(): Float64Array {
    return this.#fromStrokes ? this.#columns.notePrice : this.#columns.strokePrice;
  }
  get #nearPartner(): Int32Array {
    return this.#fromStrokes ? this.#columns.noteOfStroke : this.#columns.strokeOfNote;
  }
  get #farPartner(): Int32Array {
    return this.#fromStrokes ? this.#columns.strokeOfNote : this.#columns.noteOfStroke;
  }

  #relax(near: number, base: Float64Array, at: number): void {
    const columns = this.#columns;
    const { noteUs, noteCount, strokeUs, strokesInTime, inTimeCount, withdrawn, windowUs } =
      columns;
    if (this.#fromStrokes) {
      const until = strokeUs[near]! + windowUs;
      for (
        let i = columns.firstNoteInReach(strokeUs[near]!);
        i < noteCount && noteUs[i]! <= until;
        i++
      )
        this.#consider(near, i, base, at);
      return;
    }
    const until = noteUs[near]! + windowUs;
    for (let o = columns.firstStrokeInReach(noteUs[near]!); o < inTimeCount; o++) {
      const j = strokesInTime[o]!;
      if (strokeUs[j]! > until) return;
      if (!withdrawn[j]) this.#consider(near, j, base, at);
    }
  }

  #consider(near: number, far: number, base: Float64Array, at: number): void {
    const fresh = this.#stamp[far] !== this.#search;
    if (!fresh && this.#settled[far]) return;
    const columns = this.#columns;
    const note = this.#fromStrokes ? far : near;
    const stroke = this.#fromStrokes ? near : far;
    const same = columns.noteVoice[note] === columns.strokeVoice[stroke];
    const offset = columns.strokeUs[stroke]! - columns.noteUs[note]!;
    if (!canAnswer(offset, same, columns.noteReachUs[note]!)) return;
    const trial = this.#trial;
    columns.weigh(note, stroke, trial);
    const farPrice = this.#farPrice;
    const nearPrice = this.#nearPrice;
    for (let k = 0; k < WIDTH; k++)
      trial[k] =
        base[at + k]! + farPrice[far * WIDTH + k]! + nearPrice[near * WIDTH + k]! - trial[k]!;
    if (compareRows(trial, 0, this.#end, 0) >= 0) return;
    if (!fresh && compareRows(trial, 0, this.#distance, far * WIDTH) >= 0) return;
    this.#distance.set(trial, far * WIDTH);
    this.#parent[far] = near;
    if (!fresh) return;
    this.#stamp[far] = this.#search;
    this.#settled[far] = 0;
    if (this.#seenCount === this.#seen.length)
      this.#seen = enlarge(this.#seen, new Int32Array(2 * this.#seenCount));
    this.#seen[this.#seenCount++] = far;
  }

  #nearestUnsettled(): number {
    let nearest = -1;
    for (let s = 0; s < this.#seenCount; s++) {
      const far = this.#seen[s]!;
      if (this.#settled[far]) continue;
      if (
        nearest < 0 ||
        compareRows(this.#distance, far * WIDTH, this.#distance, nearest * WIDTH) < 0
      )
        nearest = far;
    }
    return nearest;
  }

  #updatePrices(root: number): void {
    const end = this.#end;
    const near = this.#nearPrice;
    const farPrice = this.#farPrice;
    subtractRow(near, root * WIDTH, end, 0);
    for (let s = 0; s < this.#seenCount; s++) {
      const far = this.#seen[s]!;
      const partner = this.#farPartner[far]!;
      if (!this.#settled[far] || partner < 0) continue;
      for (let k = 0; k < WIDTH; k++) {
        const change = end[k]! - this.#distance[far * WIDTH + k]!;
        farPrice[far * WIDTH + k]! += change;
        near[partner * WIDTH + k]! -= change;
      }
    }
  }

  #makeChain(endFar: number, leftAlone: number): void {
    const nearPartner = this.#nearPartner;
    if (leftAlone >= 0) nearPartner[leftAlone] = -1;
    for (let far = endFar; far >= 0;) {
      const near = this.#parent[far]!;
      const before = nearPartner[near]!;
      if (this.#fromStrokes) this.#pair(far, near);
      else this.#pair(near, far);
      far = before;
    }
  }
}
