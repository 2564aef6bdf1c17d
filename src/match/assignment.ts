import { AssignmentColumns } from './assignment-columns';
import { grown } from './grown';
import { canAnswer, saving, WEIGHT_WIDTH } from './pair-weight';
import { compareRows, subtractRow } from './weight-row';

const WIDTH = WEIGHT_WIDTH;

/**
 * The one-to-one assignment of least total cost between notes and strokes, kept optimal while
 * strokes come in one by one, in any order of time.
 *
 * Primal-dual (Kuhn 1955, Nav. Res. Logist. Q. 2:83; shortest augmenting paths): every note and
 * stroke carries a price, prices of a pair never sum to less than its weight, and equal it where
 * the pair is made; whoever is left alone has price 0. A new stroke takes its best note at once
 * when that note is free, and otherwise searches the cheapest chain of changes, which in playing is
 * a handful of strokes. Weights are rows of pair-weight.ts; since no two matchings tie in all
 * entries, the answer does not depend on the order of arrival.
 *
 * Notes are added in time order and before any stroke that can reach them.
 */
export class Assignment extends AssignmentColumns {
  /** Notes whose answer the last call changed. */
  changedNotes = new Int32Array(64);
  changedCount = 0;
  /** The stroke the last call left without a note, or -1. */
  displacedStroke = -1;

  // Search state, valid for notes whose stamp is the current search.
  #search = 0;
  #seen = new Int32Array(64);
  #seenCount = 0;
  readonly #end = new Float64Array(WIDTH);
  readonly #trial = new Float64Array(WIDTH);
  readonly #best = new Float64Array(WIDTH);
  readonly #zero = new Float64Array(WIDTH);

  /** Adds a stroke and restores the optimum; its index. */
  addStroke(timeUs: number, voice: number, velocity: number): number {
    const j = this.strokeCount++;
    this.reserve(0, this.strokeCount);
    this.strokeUs[j] = timeUs;
    this.strokeVoice[j] = voice;
    this.strokeVelocity[j] = velocity;
    this.noteOfStroke[j] = -1;
    this.withdrawn[j] = 0;
    this.changedCount = 0;
    this.displacedStroke = -1;
    this.link(j, 1);
    this.#place(j);
    return j;
  }

  /** Takes a stroke back as if it had never come. */
  withdraw(j: number): void {
    this.changedCount = 0;
    this.displacedStroke = -1;
    if (this.withdrawn[j]) return;
    const note = this.noteOfStroke[j]!;
    this.withdrawn[j] = 1;
    this.link(j, -1);
    if (note < 0) return;
    this.noteOfStroke[j] = -1;
    this.strokeOfNote[note] = -1;
    this.#settleAgain(note);
  }

  /** Gives stroke `j`, which has no note, its place in the optimum. */
  #place(j: number): void {
    const timeUs = this.strokeUs[j]!;
    const voice = this.strokeVoice[j]!;
    const until = timeUs + this.windowUs;
    const best = this.#best;
    let bestNote = -1;
    for (
      let i = this.firstNoteInReach(timeUs);
      i < this.noteCount && this.noteUs[i]! <= until;
      i++
    ) {
      const offset = timeUs - this.noteUs[i]!;
      const same = voice === this.noteVoice[i];
      const reach = this.noteReachUs[i]!;
      if (!canAnswer(offset, same, reach)) continue;
      const value = saving(offset, same, reach, this.unit) - this.notePrice[i * WIDTH]!;
      if (bestNote >= 0 && value < best[0]!) continue;
      const trial = this.#trial;
      this.weigh(i, j, trial);
      subtractRow(trial, 0, this.notePrice, i * WIDTH);
      if (bestNote < 0 || compareRows(trial, 0, best, 0) > 0) {
        bestNote = i;
        best.set(trial);
      }
    }
    if (bestNote < 0 || compareRows(best, 0, this.#zero, 0) <= 0) {
      this.strokePrice.fill(0, j * WIDTH, (j + 1) * WIDTH);
      return;
    }
    this.strokePrice.set(best, j * WIDTH);
    if (this.strokeOfNote[bestNote]! < 0) this.#pair(bestNote, j);
    else this.#findChain(j);
  }

  #pair(i: number, j: number): void {
    this.strokeOfNote[i] = j;
    this.noteOfStroke[j] = i;
    this.#markChanged(i);
  }

  #markChanged(i: number): void {
    if (this.changedCount === this.changedNotes.length)
      this.changedNotes = grown(this.changedNotes, new Int32Array(2 * this.changedCount));
    this.changedNotes[this.changedCount++] = i;
  }

  /** Dijkstra from a stroke over (stroke, note) alternations; distances are what the total would lose. */
  #findChain(root: number): void {
    const end = this.#end;
    end.set(this.strokePrice.subarray(root * WIDTH, (root + 1) * WIDTH));
    let endNote = -1;
    let endStroke = root;
    this.#search++;
    this.#seenCount = 0;
    this.#relax(root, this.#zero, 0);
    for (;;) {
      const i = this.#nearestUnsettled();
      if (i < 0 || compareRows(this.distance, i * WIDTH, end, 0) >= 0) break;
      this.settled[i] = 1;
      const next = this.strokeOfNote[i]!;
      if (next < 0) {
        end.set(this.distance.subarray(i * WIDTH, (i + 1) * WIDTH));
        endNote = i;
        endStroke = -1;
        break;
      }
      const trial = this.#trial;
      for (let k = 0; k < WIDTH; k++)
        trial[k] = this.distance[i * WIDTH + k]! + this.strokePrice[next * WIDTH + k]!;
      if (compareRows(trial, 0, end, 0) < 0) {
        end.set(trial);
        endNote = i;
        endStroke = next;
      }
      this.#relax(next, this.distance, i * WIDTH);
    }
    this.#updatePrices(root);
    this.#applyChain(root, endNote, endStroke);
  }

  #relax(j: number, base: Float64Array, at: number): void {
    const timeUs = this.strokeUs[j]!;
    const voice = this.strokeVoice[j]!;
    const until = timeUs + this.windowUs;
    const trial = this.#trial;
    for (
      let i = this.firstNoteInReach(timeUs);
      i < this.noteCount && this.noteUs[i]! <= until;
      i++
    ) {
      const fresh = this.stamp[i] !== this.#search;
      if (!fresh && this.settled[i]) continue;
      const offset = timeUs - this.noteUs[i]!;
      if (!canAnswer(offset, voice === this.noteVoice[i], this.noteReachUs[i]!)) continue;
      this.weigh(i, j, trial);
      for (let k = 0; k < WIDTH; k++)
        trial[k] =
          base[at + k]! +
          this.notePrice[i * WIDTH + k]! +
          this.strokePrice[j * WIDTH + k]! -
          trial[k]!;
      if (compareRows(trial, 0, this.#end, 0) >= 0) continue;
      if (!fresh && compareRows(trial, 0, this.distance, i * WIDTH) >= 0) continue;
      this.distance.set(trial, i * WIDTH);
      this.parent[i] = j;
      if (!fresh) continue;
      this.stamp[i] = this.#search;
      this.settled[i] = 0;
      if (this.#seenCount === this.#seen.length)
        this.#seen = grown(this.#seen, new Int32Array(2 * this.#seenCount));
      this.#seen[this.#seenCount++] = i;
    }
  }

  #nearestUnsettled(): number {
    let nearest = -1;
    for (let s = 0; s < this.#seenCount; s++) {
      const i = this.#seen[s]!;
      if (this.settled[i]) continue;
      if (nearest < 0 || compareRows(this.distance, i * WIDTH, this.distance, nearest * WIDTH) < 0)
        nearest = i;
    }
    return nearest;
  }

  #updatePrices(root: number): void {
    const end = this.#end;
    subtractRow(this.strokePrice, root * WIDTH, end, 0);
    for (let s = 0; s < this.#seenCount; s++) {
      const i = this.#seen[s]!;
      const j = this.strokeOfNote[i]!;
      if (!this.settled[i] || j < 0) continue;
      for (let k = 0; k < WIDTH; k++) {
        const change = end[k]! - this.distance[i * WIDTH + k]!;
        this.notePrice[i * WIDTH + k]! += change;
        this.strokePrice[j * WIDTH + k]! -= change;
      }
    }
  }

  #applyChain(root: number, endNote: number, endStroke: number): void {
    if (endStroke >= 0) {
      this.noteOfStroke[endStroke] = -1;
      this.displacedStroke = endStroke === root ? -1 : endStroke;
    }
    for (let i = endNote; i >= 0;) {
      const j = this.parent[i]!;
      const before = this.noteOfStroke[j]!;
      this.#pair(i, j);
      if (j === root) return;
      i = before;
    }
  }

  /** Solves the block of a note afresh after one of its strokes went. */
  #settleAgain(note: number): void {
    let from = note;
    while (from > 0 && this.links[from - 1]! > 0) from--;
    let to = note + 1;
    while (to < this.noteCount && this.links[to - 1]! > 0) to++;
    const strokes: number[] = [];
    for (let i = from; i < to; i++) {
      this.strokeOfNote[i] = -1;
      this.notePrice.fill(0, i * WIDTH, (i + 1) * WIDTH);
    }
    const earliest = this.noteUs[from]! - this.windowUs;
    const latest = this.noteUs[to - 1]! + this.windowUs;
    for (let j = 0; j < this.strokeCount; j++) {
      const us = this.strokeUs[j]!;
      if (this.withdrawn[j] || us < earliest || us > latest) continue;
      this.noteOfStroke[j] = -1;
      strokes.push(j);
    }
    for (const j of strokes) this.#place(j);
    this.changedCount = 0;
    for (let i = from; i < to; i++) this.#markChanged(i);
  }
}
