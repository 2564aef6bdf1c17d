/** A stretch of a take in which the phrase sounds later or earlier than the click has it. */
export interface Slip {
  /** Positive is late, negative early. */
  readonly partials: number;
  /** Integer microseconds from bar 1 beat 1: where it began. */
  readonly fromUs: number;
  /** Where it was over; undefined when it is not. */
  readonly toUs: number | undefined;
  /** When it became certain. */
  readonly certainUs: number;
  /** 0-based passage of the plan. */
  readonly passage: number;
  /** After so many partials the pattern sounds the same again, so that it may be that many more. */
  readonly repeats: number;
}

/**
 * Whether the place is lost at a time, integer microseconds from bar 1 beat 1.
 *
 * @example isLostAt({ fromUs: 1000, toUs: undefined }, 1000) // => true
 */
export const isLostAt = (
  { fromUs, toUs = Infinity }: Pick<Slip, 'fromUs' | 'toUs'>,
  timeUs: number,
): boolean => timeUs >= fromUs && timeUs < toUs;
