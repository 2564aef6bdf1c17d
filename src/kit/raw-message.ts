/** A raw channel message: the kit's own words, kept so that every take can be scored again. */
export interface RawMessage {
  /** Integer microseconds from bar 1 beat 1; the count-in is negative. */
  readonly timeUs: number;
  readonly status: number;
  readonly data1: number;
  readonly data2: number;
  /** It gave a command to the app: no stroke of what was played, and not judged. */
  readonly isCommand?: boolean;
}

/** Whether a raw message is a strike: a note-on that is not silent. @example isNoteOn(0x99, 80) // => true */
export const isNoteOn = (status: number, velocity: number): boolean =>
  status >> 4 === 9 && velocity > 0;

/**
 * The note of every strike among messages, in their order.
 *
 * @example struckNotes([{ timeUs: 0, status: 0x99, data1: 38, data2: 80 }, { timeUs: 9, status: 0x99, data1: 38, data2: 0 }]) // => [38]
 */
export const struckNotes = (
  messages: readonly Pick<RawMessage, 'status' | 'data1' | 'data2'>[],
): number[] =>
  messages.filter(({ status, data2 }) => isNoteOn(status, data2)).map(({ data1 }) => data1);
