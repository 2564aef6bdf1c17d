import { lcm } from '../time/whole';

/**
 * What a pair saves against leaving its note missed and its stroke extra, as six numbers
 * compared one after the other:
 *
 *   0  2·unit − 2·|offset|·unit/reach − (voices differ ? unit : 0), the rule of matching itself with
 *      `unit` standing for cost 1 (Victor & Purpura 1996, J. Neurophysiol. 76:1310, q = 2/reach;
 *      labels after Aronov et al. 2003, J. Neurophysiol. 89:3304, k = 1)
 *   1  more pairs of the right voice, then more pairs
 *   2  nearest pairs: least sum of squares, so that strokes of one voice never cross. Where two strokes
 *      are both late for two notes either pairing costs the same, and taking the smallest offset first
 *      would give the main note its grace note's stroke: of simulated players 20 ms late (spread 8,
 *      39,699 notes, flams and drags) it gives 92.8 % of the notes their own stroke, squares 98.2 %
 *   3  earlier notes
 *   4  earlier strokes; of simultaneous ones the voice that VOICES has first, then the louder
 *   5  simultaneous notes in the order of VOICES, and of one voice in the order of the limbs, take
 *      their strokes in that order: the sum of the products of the notes' and the strokes' places in
 *      order, less what is the same for all
 *
 * Sums of such rows form an ordered group, so an assignment algorithm can use them as it would use
 * numbers, and matchings that cost the same are told apart by the stated order. All entries are exact
 * in doubles: with |offset| below 2^19 µs none exceeds 2^39, which leaves room for sums. Entry 0 is what the rule
 * says where the reach divides the unit; of other reaches what a microsecond costs is rounded, and not what a pair
 * costs: offsets of one sum then cost the same.
 */
export const WEIGHT_WIDTH = 6;

/** Largest unit for which entry 0 leaves room for sums. Any two reaches divide one that is smaller. */
const MAX_UNIT = 2 ** 38;
const RIGHT_VOICE = 2 ** 20;
const STROKE_RANKS = 2 ** 12;
const NOTE_RANKS = 2 ** 7;
/** Most notes of one voice at one time that are told apart: a stroke of each limb. */
const MOST_ALIKE = 4;

/** Order of simultaneous strokes: 5 bits of voice, 7 of softness. @example strokeRank(25, 127) // => 3200 */
export const strokeRank = (voice: number, velocity: number): number => voice * 128 + 127 - velocity;

/**
 * Order of simultaneous notes: 5 bits of voice, 2 of how many alike, of the same voice and time, come before.
 *
 * @example noteRank(25, 1) // => 101
 */
export const noteRank = (voice: number, alikeBefore: number): number =>
  voice * MOST_ALIKE + Math.min(alikeBefore, MOST_ALIKE - 1);

/**
 * Largest half-width of a window for which all sums stay exact, µs.
 *
 * @example MAX_REACH_US // => 500000
 */
export const MAX_REACH_US = 500_000;

/** @throws RangeError when a reach, microseconds, is not above 0 or too wide for exact sums. */
export function checkReach(us: number): void {
  if (!(us > 0 && us <= MAX_REACH_US))
    throw new RangeError(`reach must be above 0 and at most ${MAX_REACH_US} µs, got ${us}`);
}

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
  return (sameVoice ? 2 * unit : unit) - distance * Math.floor((2 * unit) / reachUs);
}

/**
 * The unit from where a note of a further reach comes on; `unit` divides it. Every reach divides it as long as
 * it can be as large as that; from then on it is so large that other reaches are rounded by millionths of a miss.
 *
 * @example wholeUnit(100000, 60000) // => 300000
 */
export function wholeUnit(unit: number, reachUs: number): number {
  const common = lcm(unit, reachUs);
  return common <= MAX_UNIT ? common : unit * 2 ** Math.floor(Math.log2(MAX_UNIT / unit));
}

/** Entries 1, 2, 4 and 5 of the weight, written into `out`; 3 is the note's index, negative. */
export function tieBreakers(
  out: Float64Array,
  offsetUs: number,
  sameVoice: boolean,
  ofNote: number,
  ofStroke: number,
): void {
  const place = STROKE_RANKS * offsetUs + ofStroke;
  out[1] = sameVoice ? RIGHT_VOICE + 1 : 1;
  out[2] = -offsetUs * offsetUs;
  out[4] = -place;
  out[5] = ofNote * place - NOTE_RANKS * offsetUs * ofStroke;
}
