/** A raw channel message: the kit's own words, kept so that every take can be scored again. */
export interface RawMessage {
  /** Integer microseconds from bar 1 beat 1; the count-in is negative. */
  readonly timeUs: number;
  readonly status: number;
  readonly data1: number;
  readonly data2: number;
}
