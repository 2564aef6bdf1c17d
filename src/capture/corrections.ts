import * as v from 'valibot';
import { LONGEST } from './cycle-length';
import { COUNTED_BPM } from '../phrase/model/phrase-file';
import { VOICES } from '../phrase/model/voice';
import { parseMeter } from '../time/meter';

const count = v.pipe(v.number(), v.integer());
const hand = v.picklist(['R', 'L']);

/** A stroke of the cycle that is written down, and the hand that it was played with. */
const HandShape = v.object({
  /** Partials from the cycle's start, from 0; below it in the pickup. */
  partial: count,
  voice: v.picklist(VOICES),
  hand,
});
export type HandOfStroke = v.InferOutput<typeof HandShape>;

/** What the player says of something played, after it was played; as it is kept, too. */
export const CorrectionsShape = v.object({
  /** Such as "7/8". */
  meter: v.exactOptional(
    v.pipe(
      v.string(),
      v.check((text) => parseMeter(text) !== undefined),
    ),
  ),
  /** In beats of the meter. */
  tempoBpm: v.exactOptional(
    v.pipe(v.number(), v.minValue(COUNTED_BPM.least), v.maxValue(COUNTED_BPM.most)),
  ),
  /** The length of the cycle, however the beats are counted. */
  cyclePartials: v.exactOptional(v.pipe(count, v.minValue(1), v.maxValue(LONGEST))),
  /** The partial of the bar, from 0, on which the first stroke falls, and how many partials make a beat. */
  firstOn: v.exactOptional(
    v.object({
      partial: v.pipe(count, v.minValue(0)),
      subdivision: v.pipe(count, v.minValue(1)),
    }),
  ),
  /** The hand that the first stroke of the cycle is played with, of those that one hand plays alone. */
  leads: v.exactOptional(hand),
  /** Each hand's strokes were the other's. */
  handsSwapped: v.exactOptional(v.literal(true)),
  /** Hands of single strokes, as long as the cycle is counted like this; they count for more than what leads. */
  hands: v.exactOptional(
    v.object({
      subdivision: v.pipe(count, v.minValue(1)),
      cyclePartials: v.pipe(count, v.minValue(1)),
      strokes: v.array(HandShape),
    }),
  ),
});
export type Corrections = v.InferOutput<typeof CorrectionsShape>;
