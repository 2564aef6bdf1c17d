/**
 * What a pair saves against leaving its note missed and its stroke extra, as five whole numbers
 * compared one after the other:
 *
 *   0  2·unit − 2·|offset|·unit/reach − (voices differ ? unit : 0), the rule of matching itself with
 *      `unit` standing for cost 1 (Victor & Purpura 1996, J. Neurophysiol. 76:1310, q = 2/reach;
 *      labels after Aronov et al. 2003, J. Neurophysiol. 89:3304, k = 1)
 *   1  more pairs of the right voice, then more pairs
 *   2  smaller offsets: least sum of squares, so that strokes of one voice never cross
 *   3  earlier notes
 *   4  earlier strokes
 *
 * Sums of such rows form an ordered group, so an assignment algorithm can use them as it would
 * use numbers, and matchings that cost the same are told apart by the stated order.
 *
 * Strokes (and notes) at the same microsecond count as 1/32 µs apart in staff order, so that
 * every two of different voices have an order. All entries are exact in doubles: |offset| below
 * 2^20 µs gives squares below 2^50, and a chain of pairs that tie in everything before is short.
 */
export const WEIGHT_WIDTH = 5;

const RIGHT_VOICE = 2 ** 20;
const STEPS_PER_US = 32;

/** Largest half-width of a window for which all sums stay exact, µs. */
export const MAX_REACH_US = 500_000;

/** Whether a stroke `offsetUs` from the note may answer it: half the reach when voices differ, edges closed. */
export function canAnswer(offsetUs: number, sameVoice: boolean, reachUs: number): boolean {
  const distance = offsetUs < 0 ? -offsetUs : offsetUs;
  return (sameVoice ? distance : 2 * distance) <= reachUs;
}

/**
 * Entry 0 of the weight; never negative for a pair that may be made.
 *
 * @example saving(-10000, false, 100000, 100000) // => 80000
 */
export function saving(
  offsetUs: number,
  sameVoice: boolean,
  reachUs: number,
  unit: number,
): number {
  const distance = offsetUs < 0 ? -offsetUs : offsetUs;
  const shift = reachUs === unit ? 2 * distance : Math.round((2 * distance * unit) / reachUs);
  return (sameVoice ? 2 * unit : unit) - shift;
}

/** Entries 1 to 4 of the weight, written into `out` from `at` + 1 on. */
export function tieBreakers(
  offsetUs: number,
  noteVoice: number,
  strokeVoice: number,
  noteIndex: number,
  out: Float64Array,
  at: number,
): void {
  const steps = STEPS_PER_US * offsetUs + strokeVoice - noteVoice;
  out[at + 1] = noteVoice === strokeVoice ? RIGHT_VOICE + 1 : 1;
  out[at + 2] = -steps * steps;
  out[at + 3] = -noteIndex;
  out[at + 4] = -steps;
}
