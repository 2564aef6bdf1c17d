import type { Stroke } from '../kit/stroke';
import type { TimedNote } from '../match/timed-note';
import type { LevelVerdict, RequiredLevels } from './level-verdict';
import type { Verdict } from '../match/verdict';

/** One note with what became of it: the row every figure is read from. */
export interface JudgedNote {
  readonly due: TimedNote;
  /** The levels its layer asks for. */
  readonly asked: RequiredLevels;
  readonly verdict: Verdict;
  /** The stroke that answers the note; undefined when missed. */
  readonly stroke: Stroke | undefined;
  /** Stroke minus note, integer microseconds, early negative; undefined when missed. */
  readonly offsetUs: number | undefined;
  /** Undefined when missed, and where a level was asked for that the stroke's pad does not tell. */
  readonly levelVerdict: LevelVerdict | undefined;
}
