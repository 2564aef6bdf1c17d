import type { TimedNote } from '../../../src/match/timed-note';
import { timedNotes } from '../../../src/match/timed-notes';
import type { Level } from '../../../src/phrase/model/level';
import type { Limb } from '../../../src/phrase/model/limb';
import type { Voice } from '../../../src/phrase/model/voice';
import type { JudgedNote } from '../../../src/score/judged-note';
import { clamp } from '../../../src/time/whole';
import { partialOf, transitionsOf, unisonsOf } from './causes';
import type { Kind, Truth } from './naming';
import { GROOVES_OF_FUJII, PIECES, type Piece } from './phrases';
import { inMidi, VELOCITIES, velocityOf, type Bend, type Intent } from './player';

/** One fault on one phrase, and what may be said of it. */
export interface Variant {
  readonly piece: Piece;
  readonly bars: number;
  readonly what: string;
  readonly bend: Bend;
  /** What may be said; none where there is nothing to name. */
  readonly truths: readonly Truth[];
  /** The notes that it touches. */
  readonly notes: ReadonlySet<TimedNote>;
  /** By how much, where it is a shift of them and nothing else. */
  readonly shiftMs?: number;
}

/** One line of the table. */
export interface Fault {
  readonly name: string;
  /** Takes go through them in turn. */
  readonly variants: readonly Variant[];
  /** Share to be named first, where it is another than the usual. */
  readonly leastFirst?: number;
  /** Where the fault is a scatter by itself: only at 8 ms, and only white scatter has an aim. */
  readonly isScatter?: boolean;
  /** Where facts that may be meant are no claims. */
  readonly mayBeNeutral?: boolean;
}

const { triplets2, triplets3, sixteenths5, sixteenths15, sixteenths16, sixteenths20 } = PIECES;
const { round16, groove, swungHands2to1, swungHands3to2, swungRide2to1, swungRide3to2 } = PIECES;
const ALL: readonly Piece[] = Object.values(PIECES);
const SIXTEENTHS = [sixteenths5, sixteenths15, sixteenths16, sixteenths20, round16];
/** At least twelve strokes a bar: eight bars are eight units of as many, where less than six show no error of a mean. */
const DENSE = [triplets2, triplets3, ...SIXTEENTHS];
const SIGNS = [-1, 1] as const;

/** A take is judged up to its last stroke, which behind the click comes after the last bar. */
const BARS_MORE = 2;

interface Part {
  readonly piece: Piece;
  readonly bars: number;
  readonly what: string;
}

/** The notes of a part that are so, and those that come after it. */
const among = ({ piece, bars }: Part, is: (due: TimedNote) => boolean): ReadonlySet<TimedNote> =>
  new Set(piece.notes(bars + BARS_MORE).filter(is));

const isIn =
  (notes: ReadonlySet<TimedNote>) =>
  ({ due }: JudgedNote): boolean =>
    notes.has(due);

const later = (intent: Intent, ms: number): Intent => ({
  ...intent,
  faultMs: intent.faultMs + ms,
});

/** A fault that turns what is about to be played at some notes into something else. */
function variant(
  part: Part,
  notes: ReadonlySet<TimedNote>,
  kinds: readonly Kind[],
  sign: Truth['sign'],
  bend: Bend,
): Variant {
  return {
    ...part,
    notes,
    bend: (intent, due, place, chance) =>
      notes.has(due) ? bend(intent, due, place, chance) : intent,
    truths: [{ kinds, sign, touches: isIn(notes) }],
  };
}

/** Some notes so many ms from where they are written. */
const shifted = (part: Part, ms: number, notes: ReadonlySet<TimedNote>): Variant => ({
  ...variant(
    { ...part, what: `${part.what} ${ms < 0 ? 'early' : 'late'}` },
    notes,
    ['time'],
    ms < 0 ? -1 : 1,
    (intent) => later(intent, ms),
  ),
  shiftMs: ms,
});

const bothWays = (parts: readonly Part[], ms: number, is: (part: Part) => ReadonlySet<TimedNote>) =>
  parts.flatMap((part) => SIGNS.map((sign) => shifted(part, sign * ms, is(part))));

function limbs(ms: number): Variant[] {
  const parts: readonly (readonly [Piece, readonly Limb[]])[] = [
    [triplets2, ['R', 'L']],
    [triplets3, ['R', 'L']],
    [sixteenths5, ['L', 'K']],
    [sixteenths15, ['R', 'L', 'K']],
    [sixteenths16, ['R', 'L', 'K']],
    [sixteenths20, ['R', 'L', 'K']],
    [round16, ['R', 'L', 'K']],
    [groove, ['L', 'K']],
  ];
  return parts.flatMap(([piece, own]) =>
    own.flatMap((limb) =>
      bothWays([{ piece, bars: 16, what: `limb ${limb}` }], ms, (part) =>
        among(part, ({ note }) => note.limb === limb),
      ),
    ),
  );
}

const partials = (pieces: readonly (readonly [Piece, readonly number[]])[], ms: number) =>
  pieces.flatMap(([piece, own]) =>
    own.flatMap((partial) =>
      bothWays([{ piece, bars: 16, what: `partial ${partial}` }], ms, (part) =>
        among(part, (due) => partialOf(due, piece.subdivision) === partial),
      ),
    ),
  );

/** Positions of the cycle that one limb has alone. */
const POSITIONS: readonly (readonly [Piece, readonly number[]])[] = [
  [sixteenths5, [3, 4]],
  [sixteenths15, [7, 13]],
  [sixteenths16, [10, 15]],
  [sixteenths20, [4, 18]],
  [round16, [5, 10]],
];

/** Those whose cycles are so many bars at least: fewer show no error of a mean. */
const positionParts = (cycles: number, leastBars: number) =>
  POSITIONS.filter(([piece]) => piece.barsOf(cycles) >= leastBars).flatMap(([piece, own]) =>
    own.map((position) => {
      const part = { piece, bars: piece.barsOf(cycles), what: `position ${position}` };
      return { part, notes: among(part, ({ note }) => note.position === position) };
    }),
  );

function transitions(): Variant[] {
  const parts: readonly (readonly [Piece, string])[] = [
    [round16, 'snare to high tom'],
    [round16, 'floor tom to snare'],
    [sixteenths15, 'high tom to snare'],
    [sixteenths15, 'snare to high tom'],
  ];
  return parts.flatMap(([piece, name]) =>
    bothWays(
      [{ piece, bars: 24, what: name }],
      20,
      ({ bars }) => new Set(transitionsOf(piece.notes(bars + BARS_MORE)).get(name)),
    ),
  );
}

/** One limb of the unisons is late, elsewhere it is on the click. */
function flams(): Variant[] {
  const parts: readonly (readonly [Piece, Limb, number])[] = [
    [sixteenths16, 'K', 8],
    [sixteenths16, 'R', 8],
    [groove, 'K', 16],
    [groove, 'L', 16],
  ];
  return parts.flatMap(([piece, limb, bars]) => {
    const part = { piece, bars, what: `unisons, limb ${limb}` };
    const unisons = new Set(unisonsOf(piece.notes(bars + BARS_MORE)));
    const pairs = limb === 'R' ? unisons : withPartner(unisons, limb);
    return bothWays([part], 20, () =>
      among(part, (due) => unisons.has(due) && due.note.limb === limb),
    ).map((one) => ({
      ...one,
      truths: [
        ...one.truths,
        { kinds: ['unison'], sign: 0, touches: isIn(one.notes) },
        { kinds: ['unison'], sign: 0, touches: isIn(pairs) },
      ],
    }));
  });
}

/** Those of some notes that a limb strikes, and what sounds with them. */
function withPartner(notes: ReadonlySet<TimedNote>, limb: Limb): ReadonlySet<TimedNote> {
  const times = new Set(
    [...notes].filter(({ note }) => note.limb === limb).map((due) => due.timeUs),
  );
  return new Set([...notes].filter(({ timeUs }) => times.has(timeUs)));
}

/** Another ratio of long to short than is written: the off-beats move. */
function swings(pieces: readonly Piece[], written: number, played: number): Variant[] {
  return pieces.map((piece) => {
    const part = { piece, bars: 16, what: `swing ${played} for ${written}` };
    const beatMs = 60_000 / piece.plan.phrase.tempoBpm;
    const ms = beatMs * (played / (1 + played) - written / (1 + written));
    const one = variant(
      part,
      among(part, (due) => partialOf(due, 2) === 2),
      ['swing'],
      0,
      (intent) => later(intent, ms),
    );
    // The ratio is one of the off-beats to the beats.
    return { ...one, truths: [...one.truths, { kinds: ['swing'], sign: 0, touches: everyNote }] };
  });
}

const everyNote = () => true;

/** Everything at another time: how much later, ms, a note due at so many bars comes. */
function warped(
  pieces: readonly Piece[],
  what: string,
  bars: number,
  kinds: readonly Kind[],
  sign: Truth['sign'],
  laterBars: (bars: number) => number,
): Variant[] {
  return pieces.map((piece) => {
    const part = { piece, bars, what };
    const barUs = (4 * 60e6) / piece.plan.phrase.tempoBpm;
    return variant(part, among(part, everyNote), kinds, sign, (intent, { timeUs }) =>
      later(intent, (laterBars(timeUs / barUs) * barUs) / 1000),
    );
  });
}

/** 1 % is the border between another tempo and rushing: there either may be said. */
const tempi = (percent: number): Fault => ({
  name: `tempo ${percent} % off, 8 bars`,
  variants: SIGNS.flatMap((sign) => {
    const ratio = 1 + (sign * percent) / 100;
    return warped(ALL, `${sign * percent} %`, 8, ['tempo'], 0, (bars) => bars / ratio - bars).map(
      (one) => {
        const bpm = one.piece.plan.phrase.tempoBpm * ratio;
        const drift: Truth = { kinds: ['drift'], sign: sign > 0 ? -1 : 1, touches: everyNote };
        const tempo = one.truths.map((truth) => ({ ...truth, bpm }));
        return { ...one, truths: percent > 1 ? tempo : [...tempo, drift] };
      },
    );
  }),
});

const rushing = (bars: number): Fault[] =>
  SIGNS.map((sign) => ({
    name: `${sign < 0 ? 'rushing' : 'dragging'} 0.3 %, ${bars} bars`,
    variants: warped(DENSE, '0.3 %', bars, ['drift'], sign, (at) => sign * 0.003 * at),
  }));

/** The tempo changes by 0.3 % at each bar line, from the second bar on. */
const accelerating: Fault[] = SIGNS.map((sign) => ({
  name: `${sign < 0 ? 'accelerating' : 'slowing down'} 0.3 % a bar, 8 bars`,
  variants: warped(DENSE, '0.3 % a bar', 8, ['drift'], sign, (at) => {
    const whole = Math.floor(at);
    return sign * 0.003 * ((whole * (whole - 1)) / 2 + whole * (at - whole));
  }),
}));

function levelFault(
  part: Part,
  level: 'ghost' | 'accent',
  sign: -1 | 1,
  velocity: (velocity: number) => number,
): Variant {
  return variant(
    part,
    among(part, ({ note }) => note.level === level),
    ['level'],
    sign,
    (intent) => ({ ...intent, velocity: velocity(intent.velocity) }),
  );
}

/** The whole level moves, its scatter stays; levels go with 40·log10 of the velocity. */
const byDb = (level: Level, db: number) => (velocity: number) =>
  inMidi(velocity + VELOCITIES[level] * (10 ** (db / 40) - 1));

/** Ghosts and accents as near to each other as their zones allow: 12.8 dB. */
const NEAR = {
  ghost: { mean: 47, least: 44, most: 50 },
  accent: { mean: 98, least: 95, most: 101 },
};

function nearContrast(piece: Piece): Variant {
  const part = { piece, bars: 16, what: 'ghosts near accents' };
  const notes = among(part, ({ note }) => note.level !== 'tap');
  const ofLevel = (level: 'ghost' | 'accent') =>
    isIn(among(part, ({ note }) => note.level === level));
  return {
    ...variant(part, notes, ['contrast'], 0, (intent, { note }, _, { normal }) => {
      if (note.level === 'tap') return intent;
      const { mean, least, most } = NEAR[note.level];
      return { ...intent, velocity: clamp(Math.round(mean + 1.5 * normal()), least, most) };
    }),
    truths: [isIn(notes), ofLevel('ghost'), ofLevel('accent')].map((touches) => ({
      kinds: ['contrast'],
      sign: 0,
      touches,
    })),
  };
}

/** In 60 %; what may be told of are all these notes, and those of them that it befell. */
const OFTEN = 0.6;

function often(
  part: Part,
  notes: ReadonlySet<TimedNote>,
  kind: 'voice' | 'missed',
  bend: (intent: Intent) => Intent,
): Variant {
  const one = variant(part, notes, [kind], 0, (intent, _, __, { share }) =>
    share() < OFTEN ? bend(intent) : intent,
  );
  const verdict = kind === 'voice' ? 'wrong voice' : 'missed';
  const befallen = (judged: JudgedNote) => judged.verdict === verdict && notes.has(judged.due);
  return { ...one, truths: [...one.truths, { kinds: [kind], sign: 0, touches: befallen }] };
}

function wrongVoices(): Variant[] {
  const parts: readonly (readonly [Piece, Limb | undefined, Voice, Voice])[] = [
    [round16, undefined, 'floor tom', 'high tom'],
    [round16, undefined, 'high tom', 'snare'],
    [round16, 'L', 'high tom', 'floor tom'],
    [sixteenths15, undefined, 'floor tom', 'snare'],
    [sixteenths15, undefined, 'high tom', 'floor tom'],
    [sixteenths16, undefined, 'ride', 'crash'],
    [groove, undefined, 'hi-hat closed', 'hi-hat open'],
  ];
  return parts.map(([piece, limb, written, struck]) => {
    const bars = piece.barsOf(12);
    const part = { piece, bars, what: `${struck} for ${written}, ${limb ?? 'any limb'}` };
    const notes = among(
      part,
      ({ note }) => note.voice === written && (limb === undefined || note.limb === limb),
    );
    return often(part, notes, 'voice', (intent) => ({ ...intent, voice: struck }));
  });
}

/**
 * Of four notes that the layer changed three are played as the layer before has them; played so every time they would
 * look like a wrong note map.
 */
function ownNotes(): Variant[] {
  const parts: readonly (readonly [Piece, number])[] = [
    [sixteenths15, 2],
    [sixteenths15, 4],
    [round16, 1],
    [round16, 4],
    [sixteenths20, 1],
    [sixteenths20, 3],
  ];
  return parts.map(([piece, bars]) => {
    const { plan, layer } = piece;
    const part = { piece, bars, what: `own notes as layer ${layer - 1} has them` };
    const before = timedNotes(
      { ...plan, passages: [{ fromBar: 1, layer: layer - 1 }] },
      piece.notes(bars).at(-1)!.timeUs,
    );
    const own = among(part, ({ note }) => note.layers.includes(layer));
    const right = new Set([...own].filter((_, i) => i % 4 === 3));
    const one = variant(part, own, [], 0, (intent, due, _, chance) => {
      const { voice, level } = before.find(
        ({ timeUs, note }) => timeUs === due.timeUs && note.limb === due.note.limb,
      )!.note;
      const velocity = velocityOf(level, chance);
      return right.has(due) ? intent : { ...intent, voice, velocity };
    });
    const befallen = ({ due }: JudgedNote) => own.has(due) && !right.has(due);
    // Where all accents are the layer's, accents too soft are the same notes and the same fault.
    const kinds: readonly Kind[] = ['own notes', 'level', 'voice'];
    const truths = [isIn(own), befallen].map((touches) => ({ kinds, sign: 0 as const, touches }));
    return { ...one, truths };
  });
}

const BOUNCED = 0.12;
const BOUNCE_MS = { from: 40, to: 70 };

function bounces(piece: Piece): Variant {
  const part = { piece, bars: 16, what: 'hands bounce' };
  const hands = among(part, ({ note }) => note.limb === 'R' || note.limb === 'L');
  const one = variant(part, hands, ['extras'], 0, (intent, _, __, { share }) => {
    const bounceMs = BOUNCE_MS.from + share() * (BOUNCE_MS.to - BOUNCE_MS.from);
    return share() < BOUNCED ? { ...intent, bounceMs } : intent;
  });
  // Strokes too many are no notes: which notes the finding shows is its own affair.
  return { ...one, truths: [{ kinds: ['extras'], sign: 0, touches: undefined }] };
}

function growth(piece: Piece): Variant {
  const part = { piece, bars: 64, what: 'spread 8 to 16 ms' };
  return variant(part, among(part, everyNote), ['growth'], 0, (intent, _, { through }) => ({
    ...intent,
    scatterMs: intent.scatterMs * (1 + through),
  }));
}

/** Every fault with its size and length as the coach has to tell them. */
export const FAULTS: readonly Fault[] = [
  { name: 'limb 12 ms, 16 bars', variants: limbs(12) },
  {
    name: 'partial of the beat 15 ms, 16 bars',
    variants: partials(
      [
        [triplets2, [2, 3]],
        [triplets3, [1, 2, 3]],
        [sixteenths15, [2, 3]],
        [sixteenths16, [2, 3]],
        [sixteenths20, [2, 3]],
      ],
      15,
    ),
  },
  {
    name: 'last sixteenth 15 ms, 16 bars',
    variants: partials(
      SIXTEENTHS.map((piece) => [piece, [4]]),
      15,
    ),
  },
  {
    name: 'swing 1.5 for 2, 16 bars',
    variants: swings([swungHands2to1, swungRide2to1], 2, 1.5),
  },
  {
    name: 'swing 2 for 1.5, 16 bars',
    variants: swings([swungHands3to2, swungRide3to2], 1.5, 2),
  },
  tempi(1),
  tempi(5),
  ...[8, 16, 32].flatMap(rushing),
  ...accelerating,
  {
    name: 'one position 20 ms, 16 cycles',
    variants: positionParts(16, 6).flatMap(({ part, notes }) => bothWays([part], 20, () => notes)),
  },
  { name: 'one transition 20 ms, from 24', variants: transitions() },
  { name: 'unisons flam 20 ms, from 25', variants: flams() },
  {
    name: 'ghosts +8 dB, 16 bars',
    variants: [sixteenths5, sixteenths16].map((piece) =>
      levelFault({ piece, bars: 16, what: 'ghosts' }, 'ghost', 1, byDb('ghost', 8)),
    ),
  },
  {
    name: 'accents -8 dB, 16 bars',
    variants: [sixteenths5, sixteenths16, sixteenths20].map((piece) =>
      levelFault({ piece, bars: 16, what: 'accents' }, 'accent', -1, byDb('accent', -8)),
    ),
  },
  { name: 'contrast 12.8 dB, 16 bars', variants: [sixteenths5, sixteenths16].map(nearContrast) },
  { name: 'wrong voice in 60 %, 12 cycles', variants: wrongVoices() },
  {
    name: 'one position missed in 60 %, 12 cycles',
    variants: positionParts(12, 1).map(({ part, notes }) =>
      often(part, notes, 'missed', (intent) => ({ ...intent, isMissed: true })),
    ),
  },
  { name: 'own notes wrong, three of four', variants: ownNotes() },
  {
    name: 'bounces 12 %, 16 bars',
    variants: [triplets2, ...SIXTEENTHS].map(bounces),
    leastFirst: 0.95,
  },
  {
    name: 'spread 8 to 16 ms, 64 bars',
    variants: DENSE.map(growth),
    leastFirst: 0.95,
    isScatter: true,
  },
];

const clean = (piece: Piece, bars: number): Variant => ({
  piece,
  bars,
  what: `${bars} bars`,
  bend: (intent) => intent,
  truths: [],
  notes: new Set(),
});

/** Where the limbs of professionals lie, ms: Fujii et al. 2011, by tempo; the side of 2 ms is not stated. */
const FUJII: readonly Readonly<Record<'R' | 'L' | 'K', number>>[] = [
  { R: -2, L: -10, K: -10 },
  { R: -2, L: -10, K: -10 },
  { R: 10, L: 1, K: 1 },
];

/** Nothing is wrong here: any claim is one too many, but for a fact that may be meant where limbs are apart. */
export const CLEAN: readonly Fault[] = [
  { name: 'no fault, 8 bars', variants: ALL.map((piece) => clean(piece, 8)) },
  { name: 'no fault, 16 bars', variants: ALL.map((piece) => clean(piece, 16)) },
  { name: 'no fault, 64 bars', variants: ALL.map((piece) => clean(piece, 64)) },
  {
    name: 'limbs as professionals have them, 16 bars',
    mayBeNeutral: true,
    variants: GROOVES_OF_FUJII.map((piece, i) => ({
      ...clean(piece, 16),
      bend: (intent, { note }) =>
        note.limb === 'F' ? intent : later(intent, FUJII[i]![note.limb]),
    })),
  },
  {
    name: 'limbs 8 ms apart, 16 bars',
    mayBeNeutral: true,
    variants: limbs(8).map((one) => ({ ...one, truths: [] })),
  },
];
