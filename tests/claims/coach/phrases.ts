import { GENERAL_MIDI } from '../../../src/kit/built-in-kits';
import type { Kit } from '../../../src/kit/kit';
import type { Plan } from '../../../src/match/plan';
import type { TimedNote } from '../../../src/match/timed-note';
import { timedNotes } from '../../../src/match/timed-notes';
import { checkPhrase } from '../../../src/phrase/file/parse-phrase';
import type { LayerFile, PhraseFile } from '../../../src/phrase/model/phrase-file';
import { beats } from '../../../src/time/beats';
import { steadyTempo } from '../../../src/time/tempo';

/** A phrase at its last layer, as the players play it. */
export interface Piece {
  readonly name: string;
  readonly plan: Plan;
  readonly kit: Kit;
  readonly layer: number;
  /** Of the cycle. */
  readonly partials: number;
  readonly subdivision: number;
  /** Everything due in so many bars from bar 1 on, 162 at most; the same objects each time. */
  notes(bars: number): readonly TimedNote[];
  /** Bars that so many cycles take, rounded up. */
  barsOf(cycles: number): number;
}

const BEATS_A_BAR = 4;
const MOST_BARS = 162;
const USUAL = { meter: '4/4', subdivision: 4 };

function piece(file: Omit<PhraseFile, 'meter' | 'subdivision'> & Partial<PhraseFile>): Piece {
  const checked = checkPhrase({ ...USUAL, ...file });
  if (!checked.ok) throw new Error(`${file.title}: ${checked.errors[0]!.message}`);
  const phrase = checked.value;
  const tempo = steadyTempo(phrase.tempoBpm);
  const layer = phrase.layers.length;
  const plan = { phrase, passages: [{ fromBar: 1, layer }], tempo, windows: {} };
  const partials = file.cycle ?? file.grouping.split(' ').length;
  const subdivision = file.subdivision ?? USUAL.subdivision;
  const endUs = (bars: number) => tempo.usAt(beats(bars * BEATS_A_BAR)) - 1;
  let all: readonly TimedNote[] | undefined;
  const known = new Map<number, readonly TimedNote[]>();
  return {
    name: file.title,
    plan,
    kit: GENERAL_MIDI,
    layer,
    partials,
    subdivision,
    notes(bars) {
      if (bars > MOST_BARS) throw new RangeError(`${bars} bars are more than ${MOST_BARS}`);
      all ??= timedNotes(plan, endUs(MOST_BARS));
      const notes = known.get(bars) ?? all.filter(({ timeUs }) => timeUs <= endUs(bars));
      known.set(bars, notes);
      return notes;
    },
    barsOf: (cycles) => Math.ceil((cycles * partials) / subdivision / BEATS_A_BAR),
  };
}

const GROOVE = 'R+K R R+L R R+K R+K R+L R';
const STICKING: LayerFile = { name: 'Sticking' };
const on = (where: object, set: object) => ({ where, set }) as NonNullable<LayerFile['changes']>[0];

const swungHands = (swing: string) =>
  piece({
    title: `Sway of the Punt, ${swing}`,
    tempoBpm: 112,
    subdivision: 2,
    swing,
    grouping: 'R L R R L R L L',
    layers: [STICKING],
  });

const swungRide = (swing: string) =>
  piece({
    title: `Rolling Wharf, ${swing}`,
    tempoBpm: 126,
    subdivision: 2,
    swing,
    grouping: GROOVE,
    layers: [STICKING, { name: 'Ride', changes: [on({ limb: 'R' }, { voice: 'ride' })] }],
  });

const straightGroove = (title: string, tempoBpm: number) =>
  piece({
    title,
    tempoBpm,
    subdivision: 2,
    grouping: GROOVE,
    layers: [
      STICKING,
      { name: 'Hi-hat', changes: [on({ limb: 'R' }, { voice: 'hi-hat closed' })] },
    ],
  });

/**
 * Ten phrases, two of them with two swings, written for the players with one fault: cycles of 2, 3, 5, 8, 15, 16 and 20
 * partials, triplets, eighths straight and swung, sixteenths, one drum and several voices, unisons, levels.
 */
export const PIECES = {
  triplets2: piece({
    title: 'Oar and Thole',
    tempoBpm: 96,
    subdivision: 3,
    grouping: 'R L',
    layers: [STICKING],
  }),
  triplets3: piece({
    title: 'Three Wet Ropes',
    tempoBpm: 88,
    subdivision: 3,
    grouping: 'R L L',
    layers: [STICKING],
  }),
  sixteenths5: piece({
    title: 'Tally of Crates',
    tempoBpm: 92,
    grouping: 'R L R L K',
    layers: [
      STICKING,
      {
        name: 'Levels',
        changes: [
          on({ limb: 'L' }, { level: 'ghost' }),
          on({ positions: [1] }, { level: 'accent' }),
        ],
      },
    ],
  }),
  sixteenths15: piece({
    title: 'Gulls at Noon',
    tempoBpm: 84,
    grouping: 'R L R L L R L K R L L R L R K',
    layers: [
      STICKING,
      {
        name: 'Toms',
        changes: [
          on({ positions: [3, 9] }, { voice: 'high tom' }),
          on({ positions: [12] }, { voice: 'floor tom' }),
        ],
      },
    ],
  }),
  sixteenths16: piece({
    title: 'Lock Gate Four',
    tempoBpm: 90,
    grouping: 'R+K L R L R L R+K L R+K L R L R+K L L K',
    layers: [
      STICKING,
      {
        name: 'Ride and levels',
        changes: [
          on({ limb: 'R' }, { voice: 'ride' }),
          on({ limb: 'L' }, { level: 'ghost' }),
          on({ positions: [4, 12] }, { level: 'accent' }),
        ],
      },
    ],
  }),
  sixteenths20: piece({
    title: 'Twenty Planks',
    tempoBpm: 100,
    grouping: 'R L L R K R L R L K R R L R K L R L L K',
    layers: [
      STICKING,
      {
        name: 'Accents',
        changes: [on({ positions: [1, 6, 11, 16] }, { level: 'accent' })],
      },
    ],
  }),
  round16: piece({
    title: 'Round the Buoys',
    tempoBpm: 86,
    grouping: 'R L R L R L K R L R L R K L R L',
    layers: [
      STICKING,
      {
        name: 'Toms',
        changes: [
          on({ positions: [3, 8, 12] }, { voice: 'floor tom' }),
          on({ positions: [6, 11, 14] }, { voice: 'high tom' }),
        ],
      },
    ],
  }),
  swungHands2to1: swungHands('2:1'),
  swungHands3to2: swungHands('3:2'),
  swungRide2to1: swungRide('2:1'),
  swungRide3to2: swungRide('3:2'),
  groove: straightGroove('Coal for the Tender', 120),
} satisfies Record<string, Piece>;

/** The groove at the tempi of Fujii et al. 2011, Music Perception 28:491-503. */
export const GROOVES_OF_FUJII = [60, 120, 200].map((bpm) => straightGroove(`Coal at ${bpm}`, bpm));

/** Most of its notes are on the beat, and most of its time is beside them. */
export const SPARSE = piece({
  title: 'Slack Water, Few Boats',
  tempoBpm: 94,
  grouping: 'R - - - L - - - R - - - L - R K',
  layers: [STICKING],
});
