import * as v from 'valibot';
import { LONGEST } from './cycle-length';
import { COUNTED_BPM } from '../phrase/model/phrase-file';
import { parseMeter } from '../time/meter';

const count = v.pipe(v.number(), v.integer());

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
});
export type Corrections = v.InferOutput<typeof CorrectionsShape>;
