import * as v from 'valibot';
import { KitFile } from '../kit/kit-file';

/** The version that is written; older ones are read as long as there are any. */
export const TAKE_VERSION = 1;
/** Chosen, not measured: an hour of playing sends a fraction of it. */
const MOST_MESSAGES = 200_000;
const MOST_CHANGES = 10_000;

const whole = (from: number, to: number) =>
  v.pipe(v.number(), v.integer(), v.minValue(from), v.maxValue(to));
const DAY_US = 86_400e6;
const windowMs = v.exactOptional(v.pipe(v.number(), v.minValue(0), v.maxValue(1000)));
const sevenBit = whole(0, 127);

/** The shape of a take file; shared/schemas/take.schema.json is made from it. */
export const TakeFile = v.pipe(
  v.strictObject({
    take: v.pipe(v.literal(TAKE_VERSION), v.description('Version of this format')),
    startedAt: v.pipe(v.string(), v.isoTimestamp(), v.description('When the take began')),
    phrase: v.pipe(
      v.string(),
      v.maxLength(200_000),
      v.description('The phrase file as it was, text of its JSON'),
    ),
    passages: v.pipe(
      v.array(v.strictObject({ fromBar: whole(1, 1e6), layer: whole(1, 1000) })),
      v.minLength(1),
      v.maxLength(MOST_CHANGES),
      v.description('From each bar on, the layer that is played'),
    ),
    tempos: v.pipe(
      v.array(
        v.strictObject({
          fromBeat: v.pipe(
            v.string(),
            v.regex(/^\d{1,9}(?:\/[1-9]\d{0,5})?$/),
            v.description('Exact beats from bar 1 beat 1: "12" or "7/3"'),
          ),
          bpm: v.pipe(v.number(), v.minValue(1), v.maxValue(1000)),
        }),
      ),
      v.minLength(1),
      v.maxLength(MOST_CHANGES),
    ),
    countInBars: whole(0, 100),
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
    toleranceMs: windowMs,
    reachMs: windowMs,
    kit: KitFile,
    messages: v.pipe(
      v.array(v.strictTuple([whole(-DAY_US, DAY_US), whole(0x80, 0xef), sevenBit, sevenBit])),
      v.maxLength(MOST_MESSAGES),
      v.description(
        'Raw channel messages: microseconds from bar 1 beat 1, status, data 1, data 2 (0 where there is none)',
      ),
    ),
  }),
  v.title('Take: what was played, to which phrase'),
);
