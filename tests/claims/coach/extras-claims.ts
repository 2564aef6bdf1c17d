import { findings } from '../../../src/coach/findings';
import type { Stroke } from '../../../src/kit/stroke';
import type { TimedNote } from '../../../src/match/timed-note';
import { chance, type Chance } from '../../../src/time/chance';
import { partialOf } from './causes';
import type { OtherClaim } from './other-claims';
import { PIECES, SPARSE, type Piece } from './phrases';
import {
  boundariesFor,
  inMidi,
  judgementOf,
  strokesOf,
  VELOCITIES,
  VELOCITY_SD,
  type Scatter,
} from './player';

/** Where strokes too many gather. */
interface Spot {
  readonly piece: Piece;
  /** What it may be called: more than one where the phrase has it twice over. */
  readonly names: readonly string[];
  readonly isIn: (due: TimedNote) => boolean;
}

const BARS = 16;
/** Strokes too many over notes, take by take. Chosen, not measured: from 5 % on they are told. */
const TOO_MANY = [0.12, 0.3];
/** Of them, the share that gathers; the others come at any time. Chosen, not measured. */
const GATHERED = 0.8;
/** So far from a note, at most, no other is as near: partials. */
const BESIDE = 0.4;

const position = (piece: Piece, at: number): Spot => ({
  piece,
  names: [`position ${at}`],
  isIn: ({ note }) => note.position === at,
});

const partial = (piece: Piece, at: number, ...names: readonly string[]): Spot => ({
  piece,
  names,
  isIn: (due) => partialOf(due, piece.subdivision) === at,
});

const { triplets2, triplets3, sixteenths5, sixteenths15, sixteenths16, sixteenths20 } = PIECES;
const SPOTS: readonly Spot[] = [
  position(sixteenths5, 3),
  position(sixteenths15, 7),
  position(sixteenths16, 10),
  position(sixteenths20, 18),
  position(PIECES.round16, 5),
  position(SPARSE, 15),
  partial(triplets2, 3, 'third triplet partials'),
  partial(triplets3, 1, 'strokes on the beat', 'position 1'),
  partial(sixteenths15, 2, 'second sixteenths'),
  partial(sixteenths20, 4, 'last sixteenths'),
];
const ANYWHERE: readonly Piece[] = [...Object.values(PIECES), SPARSE];

/** Far from every seed of a row: what is too much is drawn apart from the rest. */
const OTHER_SEEDS = 2_000_003;

function tooMany(piece: Piece, isIn: Spot['isIn'] | undefined, share: number, draw: Chance) {
  const notes = piece.notes(BARS);
  const pick = <T>(all: readonly T[]): T => all[draw.next() % all.length]!;
  const spot = isIn ? notes.filter(isIn) : [];
  const voices = [...new Set(notes.map(({ note }) => note.voice))];
  const endUs = notes.at(-1)!.timeUs;
  const besideUs = (BESIDE * 60e6) / piece.plan.phrase.tempoBpm / piece.subdivision;
  return Array.from({ length: Math.round(share * notes.length) }, (): Stroke => {
    const timeUs =
      spot.length > 0 && draw.share() < GATHERED
        ? pick(spot).timeUs + besideUs * (2 * draw.share() - 1)
        : endUs * draw.share();
    const voice = pick(voices);
    return {
      timeUs: Math.round(timeUs),
      voice,
      pad: piece.kit.pads.find((pad) => pad.voice === voice)!.note,
      velocity: inMidi(VELOCITIES.tap + VELOCITY_SD * draw.normal()),
    };
  });
}

/** Beside what most of the strokes too many are said to be; undefined where that is not said. */
function saidBeside(
  piece: Piece,
  isIn: Spot['isIn'] | undefined,
  take: number,
  scatter: Scatter,
  seed: number,
): string | undefined {
  const share = TOO_MANY[take % TOO_MANY.length]!;
  const strokes = [
    ...strokesOf(piece, BARS, (intent) => intent, scatter, seed),
    ...tooMany(piece, isIn, share, chance(seed + OTHER_SEEDS)),
  ].sort((a, b) => a.timeUs - b.timeUs);
  const said = findings(piece.plan, judgementOf(piece, BARS, strokes), boundariesFor(piece));
  const extras = said.find(({ code }) => code === 'extras');
  return extras?.detail?.match(/^Most of them beside (.*)\.$/)?.[1];
}

/** Every share is played with every phrase: their numbers go through both. */
const inTurn = <T>(all: readonly T[], take: number): T =>
  all[Math.floor(take / TOO_MANY.length) % all.length]!;

function isNamed(take: number, scatter: Scatter, seed: number): boolean | undefined {
  const { piece, isIn, names } = inTurn(SPOTS, take);
  const name = saidBeside(piece, isIn, take, scatter, seed);
  return name === undefined ? undefined : names.includes(name);
}

/** Strokes too many: beside which notes most of them are said to be. */
export const EXTRAS_CLAIMS: readonly OtherClaim[] = [
  {
    name: 'extra strokes said to be beside a place: anywhere, 16 bars',
    isSaid: (take, scatter, seed) =>
      saidBeside(inTurn(ANYWHERE, take), undefined, take, scatter, seed) !== undefined,
    most: () => 0.02,
  },
  {
    name: 'extra strokes said to be beside their place: four in five at one, 16 bars',
    isSaid: (take, scatter, seed) => isNamed(take, scatter, seed) === true,
    most: () => undefined,
  },
  {
    name: 'extra strokes said to be beside another place: four in five at one, 16 bars',
    isSaid: (take, scatter, seed) => isNamed(take, scatter, seed) === false,
    most: () => 0.02,
  },
];
