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

type Stretch = Pick<Slip, 'fromUs' | 'toUs'>;

/**
 * Whether a time, integer microseconds from bar 1 beat 1, lies in a slip.
 *
 * @example isLostAt({ fromUs: 1000, toUs: undefined }, 1000) // => true
 */
export const isLostAt = ({ fromUs, toUs = Infinity }: Stretch, timeUs: number): boolean =>
  timeUs >= fromUs && timeUs < toUs;

/**
 * Whether it lies in none.
 *
 * @example isInPlaceAt([{ fromUs: 1000, toUs: 2000 }], 2000) // => true
 */
export const isInPlaceAt = (slips: readonly Stretch[], timeUs: number): boolean =>
  !slips.some((slip) => isLostAt(slip, timeUs));

/**
 * Whether the place is lost where a take ends, or as far as it is played.
 *
 * @example endsLost([{ toUs: 2000 }, { toUs: undefined }]) // => true
 */
export const endsLost = (slips: readonly Pick<Slip, 'toUs'>[]): boolean =>
  slips.length > 0 && slips.at(-1)!.toUs === undefined;
