/** Which stroke answers which note, by index; -1 where none does. */
export interface Matching {
  /** For each note the stroke that answers it: a missed note has -1. */
  readonly strokeOfNote: Int32Array;
  /** For each stroke the note it answers: an extra stroke has -1. */
  readonly noteOfStroke: Int32Array;
}
