/** Which stroke answers which note, by index; -1 where none does. */
export interface Matching {
  /** For each note the stroke that answers it: a missed note has -1. */
  readonly strokeOfNote: Int32Array;
  /** For each stroke the note it answers: an extra stroke has -1. */
  readonly noteOfStroke: Int32Array;
}

/** The matching that says for each note its stroke, among so many strokes. */
export function matchingOf(strokeOfNote: Int32Array, strokes: number): Matching {
  const noteOfStroke = new Int32Array(strokes).fill(-1);
  strokeOfNote.forEach((j, i) => {
    if (j >= 0) noteOfStroke[j] = i;
  });
  return { strokeOfNote, noteOfStroke };
}

/** The notes, or the strokes, that have no partner. @example indicesAlone(Int32Array.of(0, -1, 2, -1)) // => [1, 3] */
export function indicesAlone(partners: Int32Array): number[] {
  const alone: number[] = [];
  for (let k = 0; k < partners.length; k++) if (partners[k]! < 0) alone.push(k);
  return alone;
}
