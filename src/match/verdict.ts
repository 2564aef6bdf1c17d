import type { Voice } from '../phrase/model/voice';
import type { TimedNote } from './timed-note';

/** What one note got. Wrong voice goes before early and late: the offset is told beside it. */
const VERDICTS = ['in time', 'early', 'late', 'missed', 'wrong voice'] as const;
export type Verdict = (typeof VERDICTS)[number];

/** Verdicts as numbers for typed arrays: the index into this list. */
export const VERDICT_CODES = ['pending', ...VERDICTS] as const;
const IN_TIME = VERDICT_CODES.indexOf('in time');
const EARLY = VERDICT_CODES.indexOf('early');
const LATE = VERDICT_CODES.indexOf('late');
const WRONG_VOICE = VERDICT_CODES.indexOf('wrong voice');

/**
 * The verdict on a note that a stroke answers, as a number: index into VERDICT_CODES. Exactly `toleranceUs` away is
 * in time.
 *
 * @param offsetUs stroke minus note, microseconds, early negative
 * @param isOwnVoice whether the stroke is of the note's voice
 * @example VERDICT_CODES[answerCode(35001, 35000, true)] // => 'late'
 */
export function answerCode(offsetUs: number, toleranceUs: number, isOwnVoice: boolean): number {
  if (!isOwnVoice) return WRONG_VOICE;
  if (offsetUs < -toleranceUs) return EARLY;
  return offsetUs > toleranceUs ? LATE : IN_TIME;
}

/**
 * The verdict on a note and the stroke that answers it, if one does.
 *
 * @example verdictOf({ note: { voice: 'snare' }, timeUs: 0, toleranceUs: 35000 }, { voice: 'snare', timeUs: -35001 }) // => 'early'
 */
export function verdictOf(
  due: { readonly note: { readonly voice: Voice } } & Pick<TimedNote, 'timeUs' | 'toleranceUs'>,
  stroke: { readonly voice: Voice; readonly timeUs: number } | undefined,
): Verdict {
  if (!stroke) return 'missed';
  const offsetUs = stroke.timeUs - due.timeUs;
  const isOwnVoice = stroke.voice === due.note.voice;
  return VERDICTS[answerCode(offsetUs, due.toleranceUs, isOwnVoice) - 1]!;
}
