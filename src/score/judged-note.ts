import type { Stroke } from '../kit/stroke';
import type { TimedNote } from '../match/timed-note';
import type { Verdict } from '../match/verdict';

export type LevelVerdict = 'as written' | 'too loud' | 'too soft';

/** One note with what became of it: the row every figure is read from. */
export interface JudgedNote {
  readonly due: TimedNote;
  readonly verdict: Verdict;
  /** The stroke that answers the note; undefined when missed. */
  readonly stroke: Stroke | undefined;
  /** Stroke minus note, integer microseconds, early negative; undefined when missed. */
  readonly offsetUs: number | undefined;
  /** Undefined when missed. */
  readonly levelVerdict: LevelVerdict | undefined;
}
