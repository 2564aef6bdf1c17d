import { enlarge } from './enlarge';
import {
  checkReach,
  noteRank,
  saving,
  strokeRank,
  tieBreakers,
  WEIGHT_WIDTH,
  wholeUnit,
} from './pair-weight';

const WIDTH = WEIGHT_WIDTH;

/**
 * What an assignment knows of notes and strokes, in columns that are widened only when room is made.
 * Rows of weights (prices, distances) take WEIGHT_WIDTH places each.
 */
export class AssignmentColumns {
  noteCount = 0;
  strokeCount = 0;
  noteUs: Float64Array;
  noteVoice: Uint8Array;
  noteReachUs: Float64Array;
  /** Places among simultaneous ones, as pair-weight.ts counts them. */
  noteRank: Uint8Array;
  strokeRank: Uint16Array;
  strokeOfNote: Int32Array;
  strokeUs: Float64Array;
  strokeVoice: Uint8Array;
  strokeVelocity: Uint8Array;
  noteOfStroke: Int32Array;

  /** Cost 1 in whole numbers: one that the notes' reaches divide, so that what they cost is exact. 0 before there are any. */
  unit = 0;
  /** No note's reach is wider than this; strokes within it of a note count as near it. */
  readonly windowUs: number;
  cursor = 0;
  withdrawn: Uint8Array;
  notePrice: Float64Array;
  strokePrice: Float64Array;

  /** Strokes in order of time, those that were withdrawn among them. */
  strokesInTime: Int32Array;
  inTimeCount = 0;

  /** @throws RangeError when `windowUs` is too wide for exact sums. */
  constructor(windowUs: number, notes = 1024, strokes = 1024) {
    checkReach(windowUs);
    this.windowUs = windowUs;
    this.noteUs = new Float64Array(notes);
    this.noteVoice = new Uint8Array(notes);
    this.noteReachUs = new Float64Array(notes);
    this.noteRank = new Uint8Array(notes);
    this.strokeOfNote = new Int32Array(notes).fill(-1);
    this.strokeUs = new Float64Array(strokes);
    this.strokeVoice = new Uint8Array(strokes);
    this.strokeVelocity = new Uint8Array(strokes);
    this.strokeRank = new Uint16Array(strokes);
    this.noteOfStroke = new Int32Array(strokes).fill(-1);
    this.withdrawn = new Uint8Array(strokes);
    this.notePrice = new Float64Array(notes * WIDTH);
    this.strokePrice = new Float64Array(strokes * WIDTH);
    this.strokesInTime = new Int32Array(strokes);
  }

  /** Makes room, away from the live path. */
  reserve(notes: number, strokes: number): void {
    if (notes > this.noteUs.length) {
      const size = Math.max(notes, 2 * this.noteUs.length);
      this.noteUs = enlarge(this.noteUs, new Float64Array(size));
      this.noteVoice = enlarge(this.noteVoice, new Uint8Array(size));
      this.noteReachUs = enlarge(this.noteReachUs, new Float64Array(size));
      this.noteRank = enlarge(this.noteRank, new Uint8Array(size));
      this.strokeOfNote = enlarge(this.strokeOfNote, new Int32Array(size).fill(-1));
      this.notePrice = enlarge(this.notePrice, new Float64Array(size * WIDTH));
    }
    if (strokes > this.strokeUs.length) {
      const size = Math.max(strokes, 2 * this.strokeUs.length);
      this.strokeUs = enlarge(this.strokeUs, new Float64Array(size));
      this.strokeVoice = enlarge(this.strokeVoice, new Uint8Array(size));
      this.strokeVelocity = enlarge(this.strokeVelocity, new Uint8Array(size));
      this.strokeRank = enlarge(this.strokeRank, new Uint16Array(size));
      this.noteOfStroke = enlarge(this.noteOfStroke, new Int32Array(size).fill(-1));
      this.withdrawn = enlarge(this.withdrawn, new Uint8Array(size));
      this.strokePrice = enlarge(this.strokePrice, new Float64Array(size * WIDTH));
      this.strokesInTime = enlarge(this.strokesInTime, new Int32Array(size));
    }
  }

  /** Adds a note after all others in time. */
  addNote(timeUs: number, voice: number, reachUs: number): number {
    const i = this.noteCount++;
    this.reserve(this.noteCount, 0);
    this.noteUs[i] = timeUs;
    this.noteVoice[i] = voice;
    this.noteReachUs[i] = reachUs;
    const isAlike = i > 0 && this.noteUs[i - 1] === timeUs && this.noteVoice[i - 1] === voice;
    // Two hands on one pad: the one before says how many are alike.
    const alikeBefore = isAlike ? this.noteRank[i - 1]! - noteRank(voice, 0) + 1 : 0;
    this.noteRank[i] = noteRank(voice, alikeBefore);
    this.strokeOfNote[i] = -1;
    if (this.unit % reachUs !== 0 || this.unit === 0) this.#widenUnit(reachUs);
    return i;
  }

  /** Prices are in units: what they are in the wider one is exact. */
  #widenUnit(reachUs: number): void {
    const before = this.unit;
    this.unit = before === 0 ? reachUs : wholeUnit(before, reachUs);
    if (before === 0 || this.unit === before) return;
    const times = this.unit / before;
    for (let at = 0; at < this.noteCount * WIDTH; at += WIDTH) this.notePrice[at]! *= times;
    for (let at = 0; at < this.strokeCount * WIDTH; at += WIDTH) this.strokePrice[at]! *= times;
  }

  /** Writes down a stroke that answers nothing yet. */
  writeStroke(timeUs: number, voice: number, velocity: number, withdrawn: boolean): number {
    const j = this.strokeCount++;
    this.reserve(0, this.strokeCount);
    this.strokeUs[j] = timeUs;
    this.strokeVoice[j] = voice;
    this.strokeVelocity[j] = velocity;
    this.strokeRank[j] = strokeRank(voice, velocity);
    this.noteOfStroke[j] = -1;
    this.withdrawn[j] = withdrawn ? 1 : 0;
    let o = this.inTimeCount++;
    for (; o > 0 && this.strokeUs[this.strokesInTime[o - 1]!]! > timeUs; o--)
      this.strokesInTime[o] = this.strokesInTime[o - 1]!;
    this.strokesInTime[o] = j;
    return j;
  }

  /** Takes back the notes from `count` on; no stroke may reach them yet. */
  dropNotesFrom(count: number): void {
    this.noteCount = Math.min(this.noteCount, count);
    this.cursor = Math.min(this.cursor, this.noteCount);
  }

  firstNoteInReach(timeUs: number): number {
    const from = timeUs - this.windowUs;
    let lo = this.cursor;
    while (lo > 0 && this.noteUs[lo - 1]! >= from) lo--;
    while (lo < this.noteCount && this.noteUs[lo]! < from) lo++;
    this.cursor = lo;
    return lo;
  }

  /** Place in `strokesInTime` of the first stroke that a note due then could reach. */
  firstStrokeInReach(timeUs: number): number {
    const from = timeUs - this.windowUs;
    let low = 0;
    let high = this.inTimeCount;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.strokeUs[this.strokesInTime[middle]!]! < from) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  weigh(i: number, j: number, out: Float64Array): void {
    const offset = this.strokeUs[j]! - this.noteUs[i]!;
    const same = this.noteVoice[i] === this.strokeVoice[j];
    out[0] = saving(offset, same, this.noteReachUs[i]!, this.unit);
    tieBreakers(out, offset, same, this.noteRank[i]!, this.strokeRank[j]!);
    out[3] = -i;
  }
}
