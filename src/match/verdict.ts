import type { Voice } from '../phrase/model/voice';
import type { TimedNote } from './timed-note';

/** What one note got. Wrong voice goes before early and late: the offset is told beside it. */
export const VERDICTS = ['in time', 'early', 'late', 'missed', 'wrong voice'] as const;
export type Verdict = (typeof VERDICTS)[number];

/** Verdicts as numbers for typed arrays: the index into this list. */
export const VERDICT_CODES = ['pending', ...VERDICTS] as const;

/**
 * The verdict on a note and the stroke that answers it, if one does. Exactly `toleranceUs` away is in time.
 *
 * @example verdictOf({ note: { voice: 'snare' }, timeUs: 0, toleranceUs: 35000 }, { voice: 'snare', timeUs: -35001 }) // => 'early'
 */
export function verdictOf(
  due: { readonly note: { readonly voice: Voice } } & Pick<TimedNote, 'timeUs' | 'toleranceUs'>,
  stroke: { readonly voice: Voice; readonly timeUs: number } | undefined,
): Verdict {
  if (!stroke) return 'missed';
  if (stroke.voice !== due.note.voice) return 'wrong voice';
  const offsetUs = stroke.timeUs - due.timeUs;
  if (offsetUs < -due.toleranceUs) return 'early';
  return offsetUs > due.toleranceUs ? 'late' : 'in time';
}
