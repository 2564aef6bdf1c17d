import * as v from 'valibot';
import { GATE_THRESHOLD, WRONG_PASS } from '../score/gate-options';
import { LIMBS } from '../phrase/model/limb';
import { COUNTED_BPM } from '../phrase/model/phrase-file';
import { VOICES } from '../phrase/model/voice';
import { CLICK_BEATS, CLICK_FOLLOWS } from '../sound/click-pattern';
import { COUNT_FOLLOWS } from '../sound/count-choice';
import { REFERENCE_MODES } from '../sound/session-sounds';
import type { SilentBars } from '../time/silent-bars';

/** One note of four, seven, twelve or thirty may be wrong. */
export const THRESHOLDS = [0.75, GATE_THRESHOLD, 0.92, 0.97] as const;
/** What follows from each is in the words for them. */
export const WRONG_PASSES = [0.2, WRONG_PASS, 0.005] as const;

/** When something is said of what is played; what cannot wait is said at once. */
export const REMARKS = ['every 8 bars', 'every 16 bars', 'after the take'] as const;

const bpm = v.pipe(v.number(), v.minValue(COUNTED_BPM.least), v.maxValue(COUNTED_BPM.most));

/** Whether R and L have changed places. */
export const LEADING_HANDS = ['as written', 'changed'] as const;

/** How much of the lane is in sight, seconds: two are a bar of 4/4 at 120. Chosen, not measured. */
export const LANE_SECONDS = [2, 3, 4, 6, 8, 12] as const;
/** Whether a voice has its row from the start, or once it is written or struck. */
export const LANE_ROWS = ['as they come', 'all of the phrase'] as const;

const partial = v.pipe(v.number(), v.integer());
const allBut = v.optional(v.boolean());

/** What of the layer is practised by itself, and the tempo that the whole goes on at. */
const exercise = v.object({
  excerpt: v.optional(v.object({ from: partial, to: partial })),
  part: v.optional(
    v.union([
      v.object({ limb: v.picklist(LIMBS), allBut }),
      v.object({ voice: v.picklist(VOICES), allBut }),
    ]),
  ),
  isRestHeard: v.optional(v.boolean()),
  answerCycles: v.optional(v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(8))),
  wholeBpm: bpm,
});

/** How the steps of a tempo plan compare with the first, or the player's own tempi. */
export const PLAN_SHAPES = ['off', 'even', 'growing', 'shrinking', 'list'] as const;
/** Tempi of a list, and a step of a plan in beats a minute, at most. Chosen, not measured. */
export const MOST_TEMPI = 100;
export const MOST_STEP_BPM = 60;
/** Cycles that a plan looks at together, and looks that fail until it goes back, at most. Chosen, not measured. */
export const MOST_PLAN_CYCLES = 20;
export const MOST_FAILS = 5;

const wholeUpTo = (most: number) =>
  v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(most));

const TempoPlanShape = v.object({
  shape: v.picklist(PLAN_SHAPES),
  start: bpm,
  goal: bpm,
  /** The first step, and by how much the next ones grow or shrink. */
  by: wholeUpTo(MOST_STEP_BPM),
  growBy: wholeUpTo(MOST_STEP_BPM),
  list: v.pipe(v.array(bpm), v.minLength(1), v.maxLength(MOST_TEMPI)),
  cycles: wholeUpTo(MOST_PLAN_CYCLES),
  backAfter: wholeUpTo(MOST_FAILS),
});
export type TempoPlanChoice = v.InferOutput<typeof TempoPlanShape>;

/**
 * Five cycles, and two bad looks for a step back: of a tempo that a player has it says "back" once in a hundred steps, after
 * one bad look in ten to thirty (`npm run -s claims`).
 */
const FIRST_TEMPO_PLAN: TempoPlanChoice = {
  shape: 'off',
  start: 80,
  goal: 120,
  by: 4,
  growBy: 1,
  list: [80, 100, 90, 110, 100, 120],
  cycles: 5,
  backAfter: 2,
};

/** Bars of the click's stretches, with it and without, at most. Chosen, not measured. */
export const MOST_CLICK_BARS = 32;

const SilentBarsShape = v.object({
  isOn: v.boolean(),
  sounding: wholeUpTo(MOST_CLICK_BARS),
  silent: wholeUpTo(MOST_CLICK_BARS),
  growBy: v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(MOST_CLICK_BARS)),
  most: wholeUpTo(MOST_CLICK_BARS),
});

const FIRST_SILENT_BARS: v.InferOutput<typeof SilentBarsShape> = {
  isOn: false,
  sounding: 2,
  silent: 2,
  growBy: 0,
  most: 8,
};

const CountShape = v.object({
  follows: v.picklist(COUNT_FOLLOWS),
  syllables: v.boolean(),
  volume: v.pipe(v.number(), v.minValue(0), v.maxValue(1)),
});

const FIRST_COUNT: v.InferOutput<typeof CountShape> = {
  follows: 'off',
  syllables: false,
  volume: 0.6,
};

const milliseconds = v.exactOptional(v.pipe(v.number(), v.minValue(1), v.maxValue(500)));

/** What the player has chosen for practising, as it is kept from one day to the next. */
export const ChoicesShape = v.object({
  phraseId: v.string(),
  layer: v.pipe(v.number(), v.integer(), v.minValue(1)),
  tempoBpm: bpm,
  exercise: v.optional(exercise),
  /** Where a layer is played at another tempo as practice: the tempo that it is to come back to. */
  tempoToComeBack: v.optional(v.object({ phraseId: v.string(), layer: v.number(), bpm })),
  leadingHand: v.optional(v.picklist(LEADING_HANDS), 'as written'),
  click: v.object({ follows: v.picklist(CLICK_FOLLOWS), beats: v.picklist(CLICK_BEATS) }),
  reference: v.picklist(REFERENCE_MODES),
  countInBars: v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(4)),
  windows: v.object({ toleranceMs: milliseconds, reachMs: milliseconds }),
  moveOn: v.boolean(),
  /** Whether the player has answered if layers follow on each other by themselves. */
  hasChosenToMoveOn: v.optional(v.boolean(), false),
  /** Share as written that a layer passes at, and how often one 5 points worse may be let through. */
  threshold: v.optional(v.picklist(THRESHOLDS), GATE_THRESHOLD),
  /** What was a choice once, and is none any more, is the usual one. */
  wrongPass: v.fallback(v.picklist(WRONG_PASSES), WRONG_PASS),
  remarks: v.optional(v.picklist(REMARKS), 'every 8 bars'),
  /** Whether the player says first whether it was early, late or fine. */
  guessFirst: v.optional(v.boolean(), false),
  /** Choices kept before there was this one are still good. */
  stillPage: v.optional(v.boolean(), false),
  /** Seconds of the lane in sight; what the notes ask for where it is left out. */
  laneSeconds: v.optional(v.picklist(LANE_SECONDS)),
  laneRows: v.optional(v.picklist(LANE_ROWS), 'as they come'),
  /** Whether Practise shows what is read from the throne, and nothing else. */
  fromThrone: v.optional(v.boolean(), false),
  tempoPlan: v.optional(TempoPlanShape, FIRST_TEMPO_PLAN),
  count: v.optional(CountShape, FIRST_COUNT),
  silentBars: v.optional(SilentBarsShape, FIRST_SILENT_BARS),
  volume: v.pipe(v.number(), v.minValue(0), v.maxValue(1)),
});
export type Choices = v.InferOutput<typeof ChoicesShape>;

/** Before anything was chosen. The volume is the sound engine's low one. */
export const FIRST_CHOICES: Choices = {
  phraseId: '',
  layer: 1,
  tempoBpm: 90,
  leadingHand: 'as written',
  click: { follows: 'meter', beats: 'all' },
  reference: 'off',
  countInBars: 1,
  windows: {},
  moveOn: false,
  hasChosenToMoveOn: false,
  threshold: GATE_THRESHOLD,
  wrongPass: WRONG_PASS,
  remarks: 'every 8 bars',
  guessFirst: false,
  stillPage: false,
  laneRows: 'as they come',
  fromThrone: false,
  tempoPlan: FIRST_TEMPO_PLAN,
  count: FIRST_COUNT,
  silentBars: FIRST_SILENT_BARS,
  volume: 0.2,
};

/** Where the click stops; another tempo is heard before it does. */
export const silentBarsOf = ({ silentBars }: Choices): SilentBars | undefined => {
  const { isOn, ...rule } = silentBars;
  return isOn ? { ...rule, anewAtTempo: true } : undefined;
};
