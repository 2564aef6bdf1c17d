import * as v from 'valibot';
import { GATE_THRESHOLD, WRONG_PASS } from '../score/gate-options';
import { LIMBS } from '../phrase/model/limb';
import { COUNTED_BPM } from '../phrase/model/phrase-file';
import { VOICES } from '../phrase/model/voice';
import { CLICK_BEATS, CLICK_FOLLOWS } from '../sound/click-pattern';
import { REFERENCE_MODES } from '../sound/session-sounds';

/** One note of four, seven, twelve or thirty may be wrong. */
export const THRESHOLDS = [0.75, GATE_THRESHOLD, 0.92, 0.97] as const;
/** What follows from each is in the words for them. */
export const WRONG_PASSES = [0.2, WRONG_PASS, 0.005] as const;

/** When something is said of what is played; what cannot wait is said at once. */
export const REMARKS = ['every 8 bars', 'every 16 bars', 'after the take'] as const;

/** Whether R and L have changed places. */
export const LEADING_HANDS = ['as written', 'changed'] as const;

const partial = v.pipe(v.number(), v.integer());
const allBut = v.optional(v.boolean());
const bpm = v.pipe(v.number(), v.minValue(COUNTED_BPM.least), v.maxValue(COUNTED_BPM.most));

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

const milliseconds = v.exactOptional(v.pipe(v.number(), v.minValue(1), v.maxValue(500)));

/** What the player has chosen for practising, as it is kept from one day to the next. */
export const ChoicesShape = v.object({
  phraseId: v.string(),
  layer: v.pipe(v.number(), v.integer(), v.minValue(1)),
  tempoBpm: bpm,
  exercise: v.optional(exercise),
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
  wrongPass: v.optional(v.picklist(WRONG_PASSES), WRONG_PASS),
  remarks: v.optional(v.picklist(REMARKS), 'every 8 bars'),
  /** Whether the player says first whether it was early, late or fine. */
  guessFirst: v.optional(v.boolean(), false),
  /** Choices kept before there was this one are still good. */
  stillPage: v.optional(v.boolean(), false),
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
  volume: 0.2,
};
