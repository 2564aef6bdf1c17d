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

/**
 * The index of the note that one of a list in time order is a grace note of: it comes after it. Its own for a main
 * note, and where the list ends between the two.
 */
export function mainIndex(notes: readonly TimedNote[], index: number): number {
  const { graceOf, onset } = notes[index]!.note;
  if (graceOf === undefined) return index;
  for (let i = index + 1; i < notes.length; i++) {
    const { note } = notes[i]!;
    if (note.graceOf === undefined && note.limb === graceOf && note.onset.equals(onset)) return i;
    if (note.onset.compare(onset) > 0) break;
  }
  return index;
}
