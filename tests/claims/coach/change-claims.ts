import {
  comparisons,
  type Comparison,
  type JudgedTake,
} from '../../../src/coach/comparison/comparisons';
import { readingOf } from '../../../src/coach/comparison/reading';
import { findings } from '../../../src/coach/findings';
import { takeEvidence } from '../../../src/coach/take-evidence';
import { FAULTS, type Variant } from './faults';
import { PIECES } from './phrases';
import { boundariesFor, judgementOf, strokesOf, type Bend, type Scatter } from './player';

/** What became of a fault until the next take. */
export type Next = 'unchanged' | 'halved';

/** What is told of pairs of takes of one player. */
export interface ChangeCount {
  /** Pairs whose first take was told something that the second can be compared with. */
  readonly pairs: number;
  /** Of these, those that are told of a change, of none, and of too few strokes. */
  readonly other: number;
  readonly same: number;
  readonly open: number;
  /** Of the changes, those told the wrong way: as more than it was. */
  readonly more: number;
  /** Pairs whose first take has evidence enough for a halving to be told in nine of ten, and of these those told of a change. */
  readonly enough: number;
  readonly otherOfEnough: number;
}

const PRACTISED = new Set([
  'limb 12 ms, 16 bars',
  'partial of the beat 15 ms, 16 bars',
  'one position 20 ms, 16 cycles',
  'one transition 20 ms, from 24',
  'unisons flam 20 ms, from 25',
  'ghosts +8 dB, 16 bars',
  'accents -8 dB, 16 bars',
  'wrong voice in 60 %, 12 cycles',
  'one position missed in 60 %, 12 cycles',
  'own notes wrong, three of four',
  'tempo 5 % off, 8 bars',
]);

/** One limb scatters twice and a half as far as the rest. */
const wideLimb: readonly Variant[] = [PIECES.sixteenths15, PIECES.sixteenths20].map((piece) => ({
  piece,
  bars: 32,
  what: 'left hand scatters',
  bend: (intent, { note }) =>
    note.limb === 'L' ? { ...intent, scatterMs: 2.5 * intent.scatterMs } : intent,
  truths: [],
  notes: new Set(),
}));

/** Faults that an exercise is offered for. */
export const PRACTISED_FAULTS: readonly {
  readonly name: string;
  readonly variants: readonly Variant[];
}[] = [
  ...FAULTS.filter(({ name }) => PRACTISED.has(name)),
  { name: 'one limb scatters 2.5 times as far, 32 bars', variants: wideLimb },
];

/** Pairs of takes of the same player with one fault, which in the second is as it was or half of it. */
export function changeCount(
  variants: readonly Variant[],
  next: Next,
  scatter: Scatter,
  takes: number,
  nextSeed: () => number,
): ChangeCount {
  const count = { pairs: 0, other: 0, same: 0, open: 0, more: 0, enough: 0, otherOfEnough: 0 };
  for (let pair = 0; pair < takes; pair++) {
    const variant = variants[pair % variants.length]!;
    const before = takeOf(variant, variant.bend, scatter, nextSeed());
    const bend = next === 'halved' ? halved(variant.bend) : variant.bend;
    const after = takeOf(variant, bend, scatter, nextSeed());
    const [first] = comparisons(before, after);
    if (!first) continue;
    count.pairs++;
    count[first.difference]++;
    if (isMore(first)) count.more++;
    if (!isEnough(before)) continue;
    count.enough++;
    if (first.difference === 'other') count.otherOfEnough++;
  }
  return count;
}

/** Standard errors of a difference that is told at a chance of 1 %, and once more that nine of ten lie above. */
const ERRORS = 2.576 + 1.282;

/** Whether a second take as good as the first would show a halving of what the first is told. */
function isEnough({ plan, judgement, boundaries }: JudgedTake): boolean {
  const [told] = findings(plan, judgement, boundaries).filter(({ drill }) => drill);
  const reading = readingOf(takeEvidence(plan, judgement, boundaries), told!);
  return reading !== undefined && reading.half > ERRORS * Math.SQRT2 * reading.error;
}

function takeOf({ piece, bars }: Variant, bend: Bend, scatter: Scatter, seed: number): JudgedTake {
  const judgement = judgementOf(piece, bars, strokesOf(piece, bars, bend, scatter, seed));
  return { plan: piece.plan, judgement, boundaries: boundariesFor(piece), slips: [] };
}

/** Half as far off, or half as often. */
const halved =
  (bend: Bend): Bend =>
  (intent, due, place, chance) => {
    const bent = bend(intent, due, place, chance);
    const isRarer = chance.share() < 1 / 2;
    if (bent.faultMs !== intent.faultMs)
      return { ...bent, faultMs: (intent.faultMs + bent.faultMs) / 2 };
    if (bent.scatterMs !== intent.scatterMs) return { ...bent, scatterMs: bent.scatterMs / 2 };
    return isRarer ? intent : bent;
  };

/** Read off the sentence: "Left hand 9 ms late, was 14." */
function isMore({ difference, text }: Comparison): boolean {
  const [now, was] = [/(\d+)(?: ms| bpm| of (\d+))/, /was (\d+)(?: of (\d+))?/].map((pattern) => {
    const [, times, of] = pattern.exec(text) ?? [];
    return Number(times) / Number(of ?? 1);
  });
  return difference === 'other' && now! > was!;
}
