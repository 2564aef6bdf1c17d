import { byTempoWords, type TempoLook } from '../../../src/coach/by-tempo-words';
import { findings } from '../../../src/coach/findings';
import { LIVE_NOTES, liveErrorRate } from '../../../src/coach/live-error-rate';
import type { Judgement } from '../../../src/score/judge';
import type { Limb } from '../../../src/phrase/model/limb';
import { kindOf } from './naming';
import { PIECES, type Piece } from './phrases';
import { boundariesFor, judgementOf, strokesOf, type Bend, type Scatter } from './player';

/** Something said beside faults, and takes of which it is counted. */
export interface OtherClaim {
  readonly name: string;
  /** Whether it is said of one take; takes go through the phrases in turn. */
  readonly isSaid: (take: number, scatter: Scatter, seed: number) => boolean;
  /** Of how many takes it may be said, where it is not so: a share, 0 to 1; undefined where it is so. */
  readonly most: (scatter: Scatter) => number | undefined;
}

/** A limb of each that is no voice's or partial's only one, or is. */
const LIMB_OF: readonly (readonly [Piece, Limb])[] = [
  [PIECES.triplets2, 'L'],
  [PIECES.triplets3, 'L'],
  [PIECES.sixteenths15, 'R'],
  [PIECES.sixteenths16, 'L'],
  [PIECES.sixteenths20, 'L'],
  [PIECES.round16, 'R'],
];

const clean: Bend = (intent) => intent;
const pieceOf = (take: number) => LIMB_OF[take % LIMB_OF.length]!;

/** What is just noticeable at the density of these phrases: Friberg & Sundberg 1995. */
const NOTICEABLE_MS = 6;
/** The usual level of a test of equivalence, which the program uses: Schuirmann 1987. */
const WRONGLY_EVEN = 0.05;

const isEven = (piece: Piece, bars: number, bend: Bend, scatter: Scatter, seed: number) =>
  findings(
    piece.plan,
    judgementOf(piece, bars, strokesOf(piece, bars, bend, scatter, seed)),
    boundariesFor(piece),
  ).some(({ code }) => code === 'even');

const late =
  (limb: Limb): Bend =>
  (intent, due) =>
    due.note.limb === limb ? { ...intent, faultMs: intent.faultMs + NOTICEABLE_MS } : intent;

/** As the screen looks: back from a bar on. */
const LOOKS = 20;
/** Of the figures about as often as they change, and as often as the line that is said may change. */
const BARS_A_LOOK = [2, 8];

function isClaimedLive(piece: Piece, barsALook: number, scatter: Scatter, seed: number): boolean {
  const bars = LOOKS * barsALook;
  const whole = judgementOf(piece, bars, strokesOf(piece, bars, clean, scatter, seed));
  for (let bar = barsALook; bar <= bars; bar += barsALook) {
    const look = lookedAt(whole, bar);
    const errorRate = liveErrorRate(look.notes.length);
    const [first] = findings(piece.plan, look, boundariesFor(piece), { errorRate });
    if (kindOf(first!) !== undefined) return true;
  }
  return false;
}

function lookedAt({ notes: all, extras }: Judgement, bar: number): Judgement {
  const notes = all.filter(({ due }) => due.note.bar <= bar).slice(-LIVE_NOTES);
  const [from, to] = [notes[0]!.due.timeUs, notes.at(-1)!.due.timeUs];
  return { notes, extras: extras.filter(({ timeUs }) => timeUs >= from && timeUs <= to) };
}

/** Far from every seed of a row: a second take of the same player. */
const ANOTHER_TAKE = 1_000_003;

/** Whether the layer is said to be fine up to one tempo and not at the next. */
function isParted(piece: Piece, scatter: Scatter, seed: number): boolean {
  const lookAt = (bpm: number, own: number): TempoLook => {
    const strokes = strokesOf(piece, 16, clean, scatter, own);
    const [first] = findings(piece.plan, judgementOf(piece, 16, strokes), boundariesFor(piece));
    return { bpm, code: first!.code, finding: first!.text };
  };
  const words = byTempoWords([lookAt(96, seed + ANOTHER_TAKE), lookAt(92, seed)]);
  return words?.includes('; at 96') ?? false;
}

const rightlyEven = (bars: number): OtherClaim => ({
  name: `said to be even: no fault, ${bars} bars`,
  isSaid: (take, scatter, seed) => isEven(pieceOf(take)[0], bars, clean, scatter, seed),
  most: () => undefined,
});

export const OTHER_CLAIMS: readonly OtherClaim[] = [
  {
    name: `said to be even: a limb ${NOTICEABLE_MS} ms apart, 16 bars`,
    isSaid: (take, scatter, seed) => {
      const [piece, limb] = pieceOf(take);
      return isEven(piece, 16, late(limb), scatter, seed);
    },
    most: () => WRONGLY_EVEN,
  },
  rightlyEven(16),
  rightlyEven(64),
  ...BARS_A_LOOK.map((bars): OtherClaim => ({
    name: `said while playing: no fault, ${LOOKS} looks in ${LOOKS * bars} bars`,
    isSaid: (take, scatter, seed) => isClaimedLive(pieceOf(take)[0], bars, scatter, seed),
    most: ({ noise }) => (noise === 'white' ? 0.02 : 0.03),
  })),
  {
    name: 'said to part at a tempo: no fault, 16 bars at each of two',
    isSaid: (take, scatter, seed) => isParted(pieceOf(take)[0], scatter, seed),
    most: ({ noise }) => (noise === 'white' ? 0.02 : 0.03),
  },
];
