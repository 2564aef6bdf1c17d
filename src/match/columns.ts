/** Notes as columns, in time order. */
export interface NoteColumns {
  /** Integer microseconds. */
  readonly timeUs: Float64Array;
  /** Indices into VOICES. */
  readonly voice: Uint8Array;
  readonly reachUs: Float64Array;
}

/** Strokes as columns, in time order. */
export interface StrokeColumns {
  readonly timeUs: Float64Array;
  readonly voice: Uint8Array;
  /** 1 to 127. */
  readonly velocity: Uint8Array;
}
