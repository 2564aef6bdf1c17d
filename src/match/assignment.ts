import { AssignmentColumns } from './assignment-columns';
import { ChainSearch } from './chain-search';
import { enlarge } from './enlarge';
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

  readonly #trial = new Float64Array(WIDTH);
  readonly #best = new Float64Array(WIDTH);
  readonly #pair = (i: number, j: number): void => {
    this.strokeOfNote[i] = j;
    this.noteOfStroke[j] = i;
    this.#markChanged(i);
  };
  readonly #fromStroke = new ChainSearch(this, 'strokes', this.#pair);
  readonly #fromNote = new ChainSearch(this, 'notes', this.#pair);

  /** Makes room, away from the live path. */
  override reserve(notes: number, strokes: number): void {
    super.reserve(notes, strokes);
    // The columns' constructor reserves nothing, so the searches are there.
    this.#fromStroke.reserve();
    this.#fromNote.reserve();
  }

  /** Adds a stroke and restores the optimum; its index. */
  addStroke(timeUs: number, voice: number, velocity: number): number {
    this.changedCount = 0;
    const j = this.writeStroke(timeUs, voice, velocity, false);
    this.#placeStroke(j);
    return j;
  }

  /** Adds a stroke that is withdrawn already: it answers nothing and never will. */
  addWithdrawn(timeUs: number, voice: number, velocity: number): number {
    this.changedCount = 0;
    return this.writeStroke(timeUs, voice, velocity, true);
  }

  /** Takes a stroke back as if it had never come. */
  withdraw(j: number): void {
    this.changedCount = 0;
    const note = this.noteOfStroke[j]!;
    this.withdrawn[j] = 1;
    this.noteOfStroke[j] = -1;
    if (note < 0) return;
    this.strokeOfNote[note] = -1;
    this.#markChanged(note);
    this.#placeNote(note);
  }

  /** Gives stroke `j`, which has no note, its place in the optimum. */
  #placeStroke(j: number): void {
    const timeUs = this.strokeUs[j]!;
    const voice = this.strokeVoice[j]!;
    const until = timeUs + this.windowUs;
    const best = this.#best;
    const trial = this.#trial;
    for (let at = 0; at < WIDTH; at++) best[at] = 0;
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
      if (value < best[0]!) continue;
      this.weigh(i, j, trial);
      subtractRow(trial, 0, this.notePrice, i * WIDTH);
      if (compareRows(trial, 0, best, 0) <= 0) continue;
      bestNote = i;
      best.set(trial);
    }
    this.strokePrice.set(best, j * WIDTH);
    if (bestNote < 0) return;
    if (this.strokeOfNote[bestNote]! < 0) this.#pair(bestNote, j);
    else this.#fromStroke.place(j);
  }

  /** Gives note `i`, which has lost its stroke, its place in the optimum. */
  #placeNote(i: number): void {
    const until = this.noteUs[i]! + this.windowUs;
    const best = this.#best;
    const trial = this.#trial;
    for (let at = 0; at < WIDTH; at++) best[at] = 0;
    let bestStroke = -1;
    for (let o = this.firstStrokeInReach(this.noteUs[i]!); o < this.inTimeCount; o++) {
      const j = this.strokesInTime[o]!;
      const offset = this.strokeUs[j]! - this.noteUs[i]!;
      if (this.strokeUs[j]! > until) break;
      const same = this.strokeVoice[j] === this.noteVoice[i];
      if (this.withdrawn[j] || !canAnswer(offset, same, this.noteReachUs[i]!)) continue;
      this.weigh(i, j, trial);
      subtractRow(trial, 0, this.strokePrice, j * WIDTH);
      if (compareRows(trial, 0, best, 0) <= 0) continue;
      bestStroke = j;
      best.set(trial);
    }
    this.notePrice.set(best, i * WIDTH);
    if (bestStroke < 0) return;
    if (this.noteOfStroke[bestStroke]! < 0) this.#pair(i, bestStroke);
    else {
      const alone = this.#fromNote.place(i);
      if (alone >= 0) this.#markChanged(alone);
    }
  }

  #markChanged(i: number): void {
    if (this.changedCount === this.changedNotes.length)
      this.changedNotes = enlarge(this.changedNotes, new Int32Array(2 * this.changedCount));
    this.changedNotes[this.changedCount++] = i;
  }
}
