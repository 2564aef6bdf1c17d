import { Assignment } from './assignment';
import { enlarge } from './enlarge';
import { answerCode, VERDICT_CODES } from './verdict';

/**
 * How long after a note's window a stroke may still be delivered before the note is called missed,
 * µs. Chosen, not measured: there is no upper bound between a stroke's stamp and its delivery, so a
 * later one is still taken and the verdict amended.
 */
export const GRACE_US = 150_000;

const PENDING = VERDICT_CODES.indexOf('pending');
const MISSED = VERDICT_CODES.indexOf('missed');

/**
 * The matcher while playing goes on. Each stroke gets its verdict at once; the verdict may be
 * amended as long as something that can still arrive would change it. It keeps the very assignment the
 * whole-take matcher computes, so what it says at the end is what replay says.
 *
 * Columns only: nothing is allocated per stroke once `reserve` has made room.
 */
export class Follower {
  readonly assignment: Assignment;
  /** Index into VERDICT_CODES. */
  noteVerdict: Uint8Array;
  /** How far from each note still counts as in time. */
  noteToleranceUs: Float64Array;
  #missedUpTo = 0;

  constructor(windowUs: number, notes = 1024, strokes = 1024) {
    this.assignment = new Assignment(windowUs, notes, strokes);
    this.noteVerdict = new Uint8Array(notes);
    this.noteToleranceUs = new Float64Array(notes);
  }

  /** Makes room, away from the live path. */
  reserve(notes: number, strokes: number): void {
    this.assignment.reserve(notes, strokes);
    const size = this.assignment.noteUs.length;
    if (size <= this.noteVerdict.length) return;
    this.noteVerdict = enlarge(this.noteVerdict, new Uint8Array(size));
    this.noteToleranceUs = enlarge(this.noteToleranceUs, new Float64Array(size));
  }

  /** Adds a note after all others in time, before any stroke can reach it. */
  addNote(timeUs: number, voice: number, reachUs: number, toleranceUs: number): void {
    this.reserve(this.assignment.noteCount + 1, 0);
    const i = this.assignment.addNote(timeUs, voice, reachUs);
    this.noteToleranceUs[i] = toleranceUs;
    this.noteVerdict[i] = PENDING;
  }

  /** Takes back notes from index `count` on; no stroke may reach them yet. */
  dropNotesFrom(count: number): void {
    this.assignment.dropNotesFrom(count);
  }

  /** Takes a stroke and returns its index; `assignment.changedNotes` names the notes whose verdict changed. */
  add(timeUs: number, voice: number, velocity: number): number {
    const j = this.assignment.addStroke(timeUs, voice, velocity);
    this.#renew();
    return j;
  }

  /** Takes a stroke that is known to be the kit's fault; its index. */
  addWithdrawn(timeUs: number, voice: number, velocity: number): number {
    return this.assignment.addWithdrawn(timeUs, voice, velocity);
  }

  /** Takes a stroke back: it turned out to be the kit's fault. */
  withdraw(stroke: number): void {
    this.assignment.withdraw(stroke);
    this.#renew();
  }

  /** Lets time pass: notes that nothing answered become missed. */
  advance(nowUs: number): void {
    const { noteCount, noteUs, noteReachUs, strokeOfNote } = this.assignment;
    const heardUs = nowUs - GRACE_US;
    while (
      this.#missedUpTo < noteCount &&
      noteUs[this.#missedUpTo]! + noteReachUs[this.#missedUpTo]! < heardUs
    ) {
      const i = this.#missedUpTo++;
      if (strokeOfNote[i]! < 0) this.noteVerdict[i] = MISSED;
    }
  }

  #renew(): void {
    const { changedNotes, changedCount } = this.assignment;
    for (let c = 0; c < changedCount; c++) this.#judge(changedNotes[c]!);
  }

  #judge(i: number): void {
    const { strokeOfNote, strokeUs, strokeVoice, noteUs, noteVoice } = this.assignment;
    const j = strokeOfNote[i]!;
    if (j < 0) {
      this.noteVerdict[i] = i < this.#missedUpTo ? MISSED : PENDING;
      return;
    }
    const offsetUs = strokeUs[j]! - noteUs[i]!;
    const isOwnVoice = strokeVoice[j] === noteVoice[i];
    this.noteVerdict[i] = answerCode(offsetUs, this.noteToleranceUs[i]!, isOwnVoice);
  }
}
