import {
  LANE_LEVEL_VERDICTS,
  LANE_SET_ASIDE,
  LANE_VERDICTS,
  type LaneCycle,
  type LaneFeed,
  type LaneMark,
} from '../../src/live/lane-feed';
import { LEVELS, type Level } from '../../src/phrase/model/level';
import { LIMBS, type Limb } from '../../src/phrase/model/limb';
import { beats, mixedNumber } from '../../src/time/beats';
import { voiceNumber, type Voice } from '../../src/phrase/model/voice';

export interface DemoNote {
  /** Partials from bar 1 beat 1. */
  readonly at: number;
  readonly voice: Voice;
  readonly limb: Limb;
  readonly level?: Level;
  readonly graceStep?: number;
  /** The limb of the main note it is a grace note of. */
  readonly graceOf?: Limb;
  readonly verdict?: (typeof LANE_VERDICTS)[number];
  readonly levelVerdict?: (typeof LANE_LEVEL_VERDICTS)[number];
  /** Played: offset in ms, velocity, and the voice struck when it is not the written one. */
  readonly played?: readonly [offsetMs: number, velocity: number, struck?: Voice] | undefined;
}

export interface DemoStroke {
  readonly atMs: number;
  readonly voice: Voice;
  readonly velocity: number;
  readonly why?: (typeof LANE_SET_ASIDE)[number];
}

export interface DemoInput {
  readonly bpm: number;
  readonly subdivision: number;
  readonly beatsPerBar: number;
  readonly bars: number;
  readonly cycle: number;
  readonly cyclesToRealign: number;
  readonly syllables: readonly string[];
  readonly notes: readonly DemoNote[];
  readonly extras: readonly DemoStroke[];
}

/** A feed with everything stated by hand: nothing here judges. */
export function demoFeed(input: DemoInput): LaneFeed {
  const partialUs = 60e6 / input.bpm / input.subdivision;
  const reachUs = Math.round(Math.min(100_000, partialUs));
  const toleranceUs = Math.round(Math.min(35_000, partialUs / 3));
  const timeUs = (note: DemoNote) =>
    Math.round(note.at * partialUs - (note.graceStep ?? 0) * Math.min(30_000, partialUs / 3));
  const notes = [...input.notes].sort(
    (a, b) => timeUs(a) - timeUs(b) || voiceNumber(a.voice) - voiceNumber(b.voice),
  );
  const strokes = [
    ...notes.flatMap((note, index) =>
      note.played
        ? [
            {
              timeUs: timeUs(note) + Math.round(note.played[0] * 1000),
              velocity: note.played[1],
              voice: note.played[2] ?? note.voice,
              note: index,
              why: '' as const,
            },
          ]
        : [],
    ),
    ...input.extras.map((stroke) => ({
      timeUs: Math.round(stroke.atMs * 1000),
      velocity: stroke.velocity,
      voice: stroke.voice,
      note: -1,
      why: stroke.why ?? ('' as const),
    })),
  ].sort((a, b) => a.timeUs - b.timeUs);

  const partialsPerBar = input.beatsPerBar * input.subdivision;
  const lastPartial = input.bars * partialsPerBar;
  const marks: LaneMark[] = Array.from(
    { length: lastPartial === 0 ? 0 : lastPartial + 1 },
    (_, p) => {
      const inBar = p % partialsPerBar;
      const inBeat = inBar % input.subdivision;
      return {
        timeUs: Math.round(p * partialUs),
        kind: inBar === 0 ? 'bar' : inBeat === 0 ? 'beat' : 'partial',
        bar: Math.floor(p / partialsPerBar) + 1,
        label:
          inBeat === 0 ? String(inBar / input.subdivision + 1) : (input.syllables[inBeat] ?? ''),
      };
    },
  );
  const cycles: LaneCycle[] = Array.from(
    { length: Math.ceil(lastPartial / input.cycle) },
    (_, c) => ({
      startUs: Math.round(c * input.cycle * partialUs),
      endUs: Math.round((c + 1) * input.cycle * partialUs),
      number: (c % input.cyclesToRealign) + 1,
      of: input.cyclesToRealign,
    }),
  );
  const beatLabel = (at: number) => {
    const inBar = ((at % partialsPerBar) + partialsPerBar) % partialsPerBar;
    return mixedNumber(beats(inBar, input.subdivision).add(1));
  };
  return {
    accompaniment: [],
    noteCount: notes.length,
    noteTimeUs: Float64Array.from(notes, timeUs),
    noteVoice: Uint8Array.from(notes, (n) => voiceNumber(n.voice)),
    noteLevel: Uint8Array.from(notes, (n) => LEVELS.indexOf(n.level ?? 'tap')),
    noteLimb: Uint8Array.from(notes, (n) => LIMBS.indexOf(n.limb)),
    noteGraceStep: Uint8Array.from(notes, (n) => n.graceStep ?? 0),
    noteMain: Int32Array.from(notes, (n, i) =>
      n.graceOf ? notes.findIndex((m) => m.at === n.at && !m.graceOf && m.limb === n.graceOf) : i,
    ),
    noteReachUs: Float64Array.from(notes, () => reachUs),
    noteToleranceUs: Float64Array.from(notes, () => toleranceUs),
    noteBar: Int32Array.from(notes, (n) => (n.at < 0 ? 0 : Math.floor(n.at / partialsPerBar) + 1)),
    noteBeatLabel: notes.map((n) => beatLabel(n.at)),
    noteCycle: Int32Array.from(notes, (n) => (n.at < 0 ? 0 : Math.floor(n.at / input.cycle) + 1)),
    notePosition: Int32Array.from(notes, (n) => (n.at < 0 ? n.at : (n.at % input.cycle) + 1)),
    noteVerdict: Uint8Array.from(notes, (n) => LANE_VERDICTS.indexOf(n.verdict ?? 'pending')),
    noteLevelVerdict: Uint8Array.from(notes, (n) =>
      LANE_LEVEL_VERDICTS.indexOf(n.levelVerdict ?? 'as written'),
    ),
    noteStroke: Int32Array.from(notes, (_, i) => strokes.findIndex((s) => s.note === i)),
    strokeCount: strokes.length,
    strokeTimeUs: Float64Array.from(strokes, (s) => s.timeUs),
    strokeVoice: Uint8Array.from(strokes, (s) => voiceNumber(s.voice)),
    strokeVelocity: Uint8Array.from(strokes, (s) => s.velocity),
    strokeNote: Int32Array.from(strokes, (s) => s.note),
    strokeSetAside: Uint8Array.from(strokes, (s) => LANE_SET_ASIDE.indexOf(s.why)),
    marks,
    cycles,
    rows: [...new Set(notes.map((n) => voiceNumber(n.voice)))].sort((a, b) => a - b),
  };
}

const SIXTEENTHS = ['', 'e', '&', 'a'];

/** No phrase chosen. */
export const emptyFeed = (): LaneFeed =>
  demoFeed({
    bpm: 96,
    subdivision: 4,
    beatsPerBar: 4,
    bars: 0,
    cycle: 16,
    cyclesToRealign: 1,
    syllables: SIXTEENTHS,
    notes: [],
    extras: [],
  });

const FERRY: readonly [Limb, Voice][] = [
  ['R', 'snare'],
  ['L', 'snare'],
  ['L', 'snare'],
  ['R', 'floor tom'],
  ['K', 'bass drum'],
];

type Fault = Partial<Pick<DemoNote, 'verdict' | 'levelVerdict' | 'level'>> & {
  readonly played?: DemoNote['played'] | undefined;
};

const MISSED: Fault = { verdict: 'missed', played: undefined };

/** What happened to the first notes of "Ferry Five", partial by partial. */
const FERRY_FAULTS: Readonly<Record<number, Fault>> = {
  11: { verdict: 'late', played: [46, 40] },
  12: { verdict: 'in time', played: [4, 74], levelVerdict: 'too loud' },
  13: { verdict: 'in time', played: [-2, 63], levelVerdict: 'too soft', level: 'accent' },
  14: { verdict: 'late', played: [44, 86] },
  15: { verdict: 'early', played: [-48, 118], level: 'accent' },
  16: MISSED,
  17: { verdict: 'wrong voice', played: [12, 46, 'side stick'] },
  18: { verdict: 'wrong voice', played: [6, 92, 'high tom'] },
  19: { verdict: 'early', played: [-52, 96] },
};

/** Sixteenths in fives over 4/4 at 96, stopped in bar 2 with every verdict on the strip. */
export const ferryFeed = (): LaneFeed =>
  demoFeed({
    bpm: 96,
    subdivision: 4,
    beatsPerBar: 4,
    bars: 6,
    cycle: 20,
    cyclesToRealign: 4,
    syllables: SIXTEENTHS,
    notes: Array.from({ length: 94 }, (_, at): DemoNote => {
      const [limb, voice] = FERRY[at % 5]!;
      const level: Level =
        at % 20 === 0 || at % 20 === 8
          ? 'accent'
          : voice === 'snare' && limb === 'L'
            ? 'ghost'
            : 'tap';
      const steady: Fault =
        at > 22
          ? {}
          : {
              verdict: 'in time',
              played: [((at * 7) % 19) - 9, level === 'accent' ? 112 : level === 'ghost' ? 30 : 78],
            };
      return {
        at,
        limb,
        voice: at % 20 === 13 ? 'high tom' : voice,
        level,
        ...steady,
        ...FERRY_FAULTS[at],
      };
    }),
    extras: [
      { atMs: 1650, voice: 'crash', velocity: 60 },
      { atMs: 2360, voice: 'snare', velocity: 22, why: 'double trigger' },
      { atMs: 2790, voice: 'floor tom', velocity: 18, why: 'crosstalk' },
    ],
  });

/** A groove on three limbs with hi-hat signs, a flam and a drag. */
export const quayFeed = (): LaneFeed => {
  const notes: DemoNote[] = [];
  for (let bar = 0; bar < 6; bar++) {
    const from = bar * 16;
    const judged: Fault = bar < 1 ? { verdict: 'in time', played: [(bar % 3) - 4, 80] } : {};
    for (let p = 0; p < 16; p += 2)
      notes.push({
        at: from + p,
        limb: 'R',
        voice: p === 14 ? 'hi-hat open' : 'hi-hat closed',
        ...judged,
      });
    for (const p of [0, 6, 10])
      notes.push({ at: from + p, limb: 'K', voice: 'bass drum', ...judged });
    for (const p of [4, 12])
      notes.push({ at: from + p, limb: 'L', voice: 'snare', level: 'accent', ...judged });
    for (const p of [7, 9, 15])
      notes.push({ at: from + p, limb: 'L', voice: 'snare', level: 'ghost', ...judged });
    notes.push({ at: from + 4, limb: 'R', voice: 'snare', graceStep: 1, graceOf: 'L', ...judged });
    notes.push({ at: from + 12, limb: 'R', voice: 'snare', graceStep: 1, graceOf: 'L', ...judged });
    notes.push({ at: from + 12, limb: 'R', voice: 'snare', graceStep: 2, graceOf: 'L', ...judged });
    notes.push({ at: from + 8, limb: 'F', voice: 'hi-hat foot splash', ...judged });
  }
  return demoFeed({
    bpm: 88,
    subdivision: 4,
    beatsPerBar: 4,
    bars: 6,
    cycle: 16,
    cyclesToRealign: 1,
    syllables: SIXTEENTHS,
    notes,
    extras: [],
  });
};

const CROWD: readonly [Limb, Voice][] = [
  ['R', 'ride'],
  ['L', 'snare'],
  ['K', 'bass drum'],
  ['R', 'crash'],
  ['L', 'high tom'],
  ['F', 'hi-hat pedal'],
  ['R', 'floor tom'],
  ['L', 'mid tom'],
];

/** Eight rows at 300 with something on every sixteenth and two limbs on most, all of it played. */
export const crowdedFeed = (bars = 80): LaneFeed =>
  demoFeed({
    bpm: 300,
    subdivision: 4,
    beatsPerBar: 4,
    bars,
    cycle: 18,
    cyclesToRealign: 8,
    syllables: SIXTEENTHS,
    notes: Array.from({ length: bars * 16 }, (_, at): DemoNote[] => {
      const offset = ((at * 13) % 41) - 20;
      const verdict = offset < -15 ? 'early' : offset > 15 ? 'late' : 'in time';
      const [limb, voice] = CROWD[at % 8]!;
      const first: DemoNote = {
        at,
        limb,
        voice,
        level: at % 3 === 0 ? 'accent' : at % 3 === 1 ? 'ghost' : 'tap',
        verdict: at % 23 === 0 ? 'missed' : verdict,
        ...(at % 23 === 0 ? {} : { played: [offset, 30 + ((at * 29) % 95)] as const }),
      };
      if (at % 2 === 0) return [first];
      const second = voice === 'bass drum' ? 'ride' : 'bass drum';
      return [
        first,
        { at, limb: second === 'ride' ? 'R' : 'K', voice: second, verdict, played: [offset, 90] },
      ];
    }).flat(),
    extras: [],
  });
