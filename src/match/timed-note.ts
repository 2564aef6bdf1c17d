import type { Note } from '../phrase/model/note';

/** A note once a tempo is applied: when it is due and how far a stroke may be from it. */
export interface TimedNote {
  readonly note: Note;
  /** Which passage of the plan this is, 0-based. */
  readonly passage: number;
  /** The layer being played here, 1-based. */
  readonly layer: number;
  /** Integer microseconds from bar 1 beat 1. */
  readonly timeUs: number;
  /** Half-width of the hit window, integer microseconds, edges closed. */
  readonly reachUs: number;
  /** How far still counts as in time, integer microseconds, edges closed. */
  readonly toleranceUs: number;
}
