import * as v from 'valibot';
import { COUNTED_BPM } from '../../phrase/model/phrase-file';
import { parseMeter } from '../../time/meter';

/** The ways to catch a phrase. */
export const WAYS = ['free', 'to the click', 'from a file'] as const;
export type Way = (typeof WAYS)[number];

/** What the player has chosen for capturing, as it is kept from one day to the next. */
export const CaptureChoicesShape = v.object({
  way: v.picklist(WAYS),
  meter: v.pipe(
    v.string(),
    v.check((text) => parseMeter(text) !== undefined),
  ),
  tempoBpm: v.pipe(v.number(), v.minValue(COUNTED_BPM.least), v.maxValue(COUNTED_BPM.most)),
  countInBars: v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(4)),
});
export type CaptureChoices = v.InferOutput<typeof CaptureChoicesShape>;

export const FIRST_CAPTURE_CHOICES: CaptureChoices = {
  way: 'to the click',
  meter: '4/4',
  tempoBpm: 90,
  countInBars: 1,
};
