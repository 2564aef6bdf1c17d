import { expect, it } from 'vitest';
import {
  comparisons,
  type JudgedTake,
  type PracticeBetween,
} from '../../../src/coach/comparison/comparisons';
import { findingPlace } from '../../../src/coach/finding-place';
import { findings } from '../../../src/coach/findings';
import type { FindingCode } from '../../../src/coach/wording';
import type { TimedNote } from '../../../src/match/timed-note';
import { exerciseOf } from '../../../src/phrase/exercise/exercise';
import { targetKey } from '../../../src/phrase/layers/target-key';
import { partialOf, transitionsOf, unisonsOf } from '../../claims/coach/causes';
import { PIECES, type Piece } from '../../claims/coach/phrases';
import {
  boundariesFor,
  judgementOf,
  strokesOf,
  type Bend,
  type Intent,
} from '../../claims/coach/player';

const BARS = 32;
const { round16, sixteenths15, sixteenths16, sixteenths20, swungHands2to1 } = PIECES;

const take = (piece: Piece, bend: Bend, seed: number): JudgedTake => {
  const strokes = strokesOf(piece, BARS, bend, { noise: 'white', sdMs: 8 }, seed);
  const judgement = judgementOf(piece, BARS, strokes);
  return { plan: piece.plan, judgement, boundaries: boundariesFor(piece), slips: [] };
};

/** What is about to be played turned into something else, at some notes or in a share of them. */
const where =
  (is: (due: TimedNote) => boolean, change: (intent: Intent) => Intent, share = 1): Bend =>
  (intent, due, _, chance) =>
    is(due) && chance.share() < share ? change(intent) : intent;
const late =
  (ms: number) =>
  (intent: Intent): Intent => ({ ...intent, faultMs: intent.faultMs + ms });
const missed = (intent: Intent): Intent => ({ ...intent, isMissed: true });
const among = (notes: Iterable<TimedNote>) => {
  const all = new Set(notes);
  return (due: TimedNote) => all.has(due);
};

const movesToTom = among(transitionsOf(round16.notes(BARS + 2)).get('snare to high tom')!);
const unisons = among(unisonsOf(sixteenths16.notes(BARS + 2)));

/** A fault, and how it is told of a next take without it. */
const CASES: readonly (readonly [FindingCode, Piece, Bend, RegExp])[] = [
  [
    'other tempo',
    sixteenths16,
    (intent, { timeUs }) => late(-0.03 * (timeUs / 1000))(intent),
    /^You play at the click's tempo, was 3 bpm quicker\.$/,
  ],
  [
    'limb off',
    sixteenths16,
    where(({ note }) => note.limb === 'L', late(14)),
    /^Left hand .+, was 1\d/,
  ],
  [
    'partial off',
    sixteenths20,
    where((due) => partialOf(due, 4) === 2, late(15)),
    /^Second sixteenths .+, was 1\d/,
  ],
  [
    'voice off',
    round16,
    where(({ note }) => note.voice === 'floor tom', late(18)),
    /^Floor tom .+, was \d\d/,
  ],
  [
    'level off',
    sixteenths16,
    where(({ note }) => note.level === 'accent', late(20)),
    /^Accents .+, was \d\d/,
  ],
  [
    'layer off',
    sixteenths15,
    where(({ note }) => note.layers.includes(2), late(20)),
    /.+, was \d\d/,
  ],
  [
    'position off',
    sixteenths16,
    where(({ note }) => note.position === 10, late(20)),
    /^Position 10: .+, was \d\d/,
  ],
  ['transition off', round16, where(movesToTom, late(20)), /^The move snare to high tom .+, was/],
  [
    'unison off',
    sixteenths16,
    where((due) => unisons(due) && due.note.limb === 'K', late(20)),
    /^Unisons with right hand: right foot .+, was \d\d/,
  ],
  [
    'swing',
    swungHands2to1,
    // 1.5 to 1 in place of 2 to 1 at 112: the off-beat 36 ms sooner.
    where((due) => partialOf(due, 2) === 2, late(-36)),
    /^Swing 2\.0 to 1, was 1\.5\.$/,
  ],
  [
    'spread apart',
    sixteenths16,
    where(
      ({ note }) => note.limb === 'L',
      (intent) => ({ ...intent, scatterMs: 2.5 * intent.scatterMs }),
    ),
    /^Left hand: spread \d+ ms, was \d\d\.$/,
  ],
  [
    'spread',
    sixteenths16,
    where(
      () => true,
      (intent) => ({ ...intent, scatterMs: 3 * intent.scatterMs }),
    ),
    /^Spread \d+ ms, was \d\d\.$/,
  ],
  [
    'missed',
    sixteenths16,
    where(({ note }) => note.position === 10, missed, 0.6),
    /^Position 10: missed \d+ of \d+, was \d+ of \d+\.$/,
  ],
  [
    'missed',
    sixteenths16,
    where(() => true, missed, 0.25),
    /^Missed notes: \d+ of \d+, was \d+ of \d+\.$/,
  ],
  [
    'own notes wrong',
    sixteenths15,
    where(
      ({ note }) => note.layers.includes(2),
      (intent) => ({ ...intent, voice: 'snare' }),
      0.75,
    ),
    /^“Toms”: \d+ of \d+ notes not as written, was \d+ of \d+\.$/,
  ],
  [
    'too loud',
    sixteenths16,
    where(
      ({ note }) => note.level === 'ghost',
      (intent) => ({ ...intent, velocity: 64 }),
    ),
    /^Snare ghosts too loud: \d+ of \d+, was \d+ of \d+\.$/,
  ],
  [
    'too soft',
    sixteenths16,
    where(
      ({ note }) => note.level === 'accent',
      (intent) => ({ ...intent, velocity: 80 }),
    ),
    /^Snare accents too soft: \d+ of \d+, was \d+ of \d+\.$/,
  ],
  [
    'wrong voice',
    round16,
    where(
      ({ note }) => note.voice === 'floor tom',
      (intent) => ({ ...intent, voice: 'high tom' }),
      0.6,
    ),
    /^High tom struck for floor tom: \d+ of \d+, was \d+ of \d+\.$/,
  ],
];

/** What a finding's button starts, as the log has it. */
function practised(before: JudgedTake, code: FindingCode): PracticeBetween {
  const all = findings(before.plan, before.judgement, before.boundaries);
  const told = all.find((one) => one.code === code);
  if (!told) throw new Error(`told: ${all.map((one) => one.text).join(' ')}`);
  const started = findingPlace(before.plan, before.judgement, told)?.exercise;
  if (!started) throw new Error(`nothing is started for: ${told.text}`);
  const { layer, bpm, exercise } = started;
  if (!exercise) return { target: targetKey(before.plan.phrase, layer), bpm };
  const made = exerciseOf(before.plan.phrase, layer, exercise);
  if (!made.ok) throw new Error(made.errors[0]!.message);
  const { phrase } = made.value;
  return { target: targetKey(phrase, phrase.layers.length), bpm };
}

it.each(CASES)('%s: once its exercise was practised the next take says what changed', (...of) => {
  const [code, piece, bend, expected] = of;
  const before = take(piece, bend, 5);
  const after = take(piece, (intent) => intent, 6);
  const between = practised(before, code);
  const since = comparisons(before, after, [between]);
  const own = since.find((one) => one.code === code);
  expect(own, JSON.stringify(since)).toMatchObject({ difference: 'other' });
  expect(own!.text).toMatch(expected);
  // Nothing is told of it where something else was practised.
  const another = { target: 'another', bpm: between.bpm };
  expect(comparisons(before, after, [another])).toEqual([]);
});
