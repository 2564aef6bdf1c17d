import * as v from 'valibot';
import { KitFile } from '../kit/kit-file';
import { LIMBS } from '../phrase/model/limb';
import { COUNTED_BPM } from '../phrase/model/phrase-file';
import { VOICES } from '../phrase/model/voice';
import { GUESSES } from './guess';
import { PLAYERS } from './player';

/** The version that is written; older ones are read as long as there are any. */
export const TAKE_VERSION = 4;
/** Chosen, not measured: an hour of playing sends a fraction of it. */
export const MOST_MESSAGES = 200_000;
export const MOST_TEMPOS = 10_000;
/** Chosen, not measured: hours of playing with another layer at every realignment. */
export const MOST_PASSAGES = 1000;
/** Letters: as many as a phrase file may have. */
const MOST_PHRASE = 400_000;

const whole = (from: number, to: number) =>
  v.pipe(v.number(), v.integer(), v.minValue(from), v.maxValue(to));
/** Beats of the meter a minute. */
export const TAKE_BPM = { least: 1, most: COUNTED_BPM.most } as const;
/** What the matching can have, from a microsecond to half a second. */
export const TAKE_REACH_MS = { least: 0.001, most: 500 } as const;
/** How far from bar 1 beat 1 a take may reach, in every kind of file. Chosen, not measured. */
export const DAY_US = 86_400e6;
const milliseconds = (from: number, to: number) =>
  v.exactOptional(v.pipe(v.number(), v.minValue(from), v.maxValue(to)));
const sevenBit = whole(0, 127);

/** What the gate takes, and the least that somebody may ask of it. Chosen, not measured. */
const THRESHOLD = { least: 0.01, most: 0.97 } as const;
const WRONG_PASS = { least: 0.001, most: 0.5 } as const;
/** As many as can be typed on the take's page. */
export const MOST_IN_LIST = 100_000;
const share = ({ least, most }: { readonly least: number; readonly most: number }) =>
  v.exactOptional(v.pipe(v.number(), v.minValue(least), v.maxValue(most)));
const numbers = (from: number, to: number) =>
  v.exactOptional(v.pipe(v.array(whole(from, to)), v.maxLength(MOST_IN_LIST)));

export const TrialsFile = v.pipe(
  v.strictObject({
    threshold: share(THRESHOLD),
    wrongPass: share(WRONG_PASS),
    continues: v.exactOptional(v.boolean()),
    requestsUs: numbers(-DAY_US, DAY_US),
    leftOutBars: numbers(0, 1e6),
    takenBack: numbers(1, 1e6),
  }),
  v.description('How the gate looks at it; what is absent is as usual'),
);

/** Partials from bar 1 beat 1, and cycles of a turn, at most. Chosen, not measured. */
const MOST_PLACE = 1e6;
const MOST_TURN = 1000;
/** Bars of a stretch at most. Chosen, not measured. */
const MOST_BARS = 1000;

export const SilentBarsFile = v.pipe(
  v.strictObject({
    sounding: whole(1, MOST_BARS),
    silent: whole(1, MOST_BARS),
    growBy: whole(0, MOST_BARS),
    most: whole(1, MOST_BARS),
    anewAtTempo: v.exactOptional(v.boolean()),
  }),
  v.description(
    'Bars without a click: `sounding` bars with it, then `silent` without, and so on; each stretch without it `growBy` bars longer than the one before, up to `most`; with `anewAtTempo` from the beginning wherever the tempo changes, in whose bar the click sounds',
  ),
);

const partial = whole(-MOST_PLACE, MOST_PLACE);
const allBut = v.optional(v.boolean());

export const ExerciseFile = v.pipe(
  v.strictObject({
    phrase: v.pipe(
      v.string(),
      v.maxLength(MOST_PHRASE),
      v.description('The phrase file that the exercise was made of, text of its JSON'),
    ),
    layer: whole(1, 1000),
    choice: v.pipe(
      v.strictObject({
        excerpt: v.optional(v.strictObject({ from: partial, to: partial })),
        part: v.optional(
          v.union([
            v.strictObject({ limb: v.picklist(LIMBS), allBut }),
            v.strictObject({ voice: v.picklist(VOICES), allBut }),
          ]),
        ),
        isRestHeard: v.optional(v.boolean()),
        answerCycles: v.optional(whole(1, MOST_TURN)),
      }),
      v.description(
        'Partials `from` to `to` of the layer, counted from 0 at bar 1 beat 1; a limb or a voice, or all but it; and cycles that are heard, then answered',
      ),
    ),
    wholeBpm: v.pipe(v.number(), v.minValue(TAKE_BPM.least), v.maxValue(TAKE_BPM.most)),
  }),
  v.description('What of a phrase was practised by itself'),
);
export const CommandsFile = v.pipe(v.array(whole(0, MOST_MESSAGES - 1)), v.maxLength(MOST_IN_LIST));
export const SpotsFile = v.pipe(v.array(whole(-DAY_US, DAY_US)), v.maxLength(MOST_IN_LIST));

/** Bars of a count-in, and partials that the target waited, at most. Chosen, not measured. */
const MOST_COUNT_IN = 100;
const MOST_LATE = 10_000;

const PassageFile = v.strictObject({
  fromBar: whole(1, 1e6),
  layer: whole(1, 1000),
  latePartials: v.exactOptional(
    v.pipe(
      whole(-MOST_LATE, MOST_LATE),
      v.description(
        'Where the target waited for the player: so many partials later than after a bar line its first cycle starts, without a pickup',
      ),
    ),
  ),
  countInBars: v.exactOptional(
    v.pipe(
      whole(1, MOST_COUNT_IN),
      v.description(
        'Where the player was brought back: bars of click ahead of it, taken from what was played before',
      ),
    ),
  ),
});

/** The shape of a take file; shared/schemas/take.schema.json is made from it. */
export const TakeFile = v.pipe(
  v.strictObject({
    take: v.pipe(whole(1, TAKE_VERSION), v.description('Version of this format')),
    startedAt: v.pipe(v.string(), v.isoTimestamp(), v.description('When the take began')),
    player: v.exactOptional(v.pipe(v.picklist(PLAYERS), v.description('Who played'))),
    trials: v.exactOptional(TrialsFile),
    guess: v.exactOptional(
      v.pipe(
        v.picklist(GUESSES),
        v.description("What the player said of the last trial's time before it was told"),
      ),
    ),
    exercise: v.exactOptional(ExerciseFile),
    phrase: v.pipe(
      v.string(),
      v.maxLength(MOST_PHRASE),
      v.description('The phrase file as it was, text of its JSON'),
    ),
    passages: v.pipe(
      v.array(PassageFile),
      v.minLength(1),
      v.maxLength(MOST_PASSAGES),
      v.description('From each bar on, the layer that is played'),
    ),
    tempos: v.pipe(
      v.array(
        v.strictObject({
          fromBeat: v.pipe(
            v.string(),
            v.regex(/^-?\d{1,9}(?:\/[1-9]\d{0,5})?$/),
            v.description(
              'Exact beats from bar 1 beat 1: "12" or "7/3"; the first holds from the start, wherever it is',
            ),
          ),
          bpm: v.pipe(v.number(), v.minValue(TAKE_BPM.least), v.maxValue(TAKE_BPM.most)),
        }),
      ),
      v.minLength(1),
      v.maxLength(MOST_TEMPOS),
    ),
    countInBars: whole(0, MOST_COUNT_IN),
    endUs: v.pipe(whole(0, DAY_US), v.description('How far the target reaches, microseconds')),
    deviceOffsetMs: v.exactOptional(
      v.pipe(
        v.number(),
        v.minValue(-1000),
        v.maxValue(1000),
        v.description(
          "The rig's part of every offset, taken off the messages' times; 0 when absent",
        ),
      ),
    ),
    toleranceMs: milliseconds(0, 1000),
    reachMs: milliseconds(TAKE_REACH_MS.least, TAKE_REACH_MS.most),
    silentBars: v.exactOptional(SilentBarsFile),
    kit: KitFile,
    messages: v.pipe(
      v.array(v.strictTuple([whole(-DAY_US, DAY_US), whole(0x80, 0xef), sevenBit, sevenBit])),
      v.maxLength(MOST_MESSAGES),
      v.description(
        'Raw channel messages: microseconds from bar 1 beat 1, status, data 1, data 2 (0 where there is none)',
      ),
    ),
    commands: v.exactOptional(
      v.pipe(
        CommandsFile,
        v.description(
          'Places in `messages`, from 0, of those that gave a command to the app: they are not judged',
        ),
      ),
    ),
    spotsUs: v.exactOptional(
      v.pipe(
        SpotsFile,
        v.description('Spots that the player marked, microseconds from bar 1 beat 1'),
      ),
    ),
  }),
  v.title('Take: what was played, to which phrase'),
);
