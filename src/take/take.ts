import type { Kit } from '../kit/kit';
import type { RawMessage } from '../kit/raw-message';
import type { Guess } from './guess';
import type { Player } from './player';
import type { TakeExercise } from './take-exercise';
import type { Passage } from '../phrase/model/passage';
import type { SilentBars } from '../time/silent-bars';
import type { TempoChange } from '../time/tempo';

/** How the gate looks at a take; what is absent is as usual. */
export interface TakeTrials {
  /** Share as written that a layer passes at, 0.01 to 0.97. */
  readonly threshold?: number;
  /** How often somebody 5 points below it may be let through, 0.001 to 0.5. */
  readonly wrongPass?: number;
  /** Whether the first trial goes on with that of the take before, which lacked the layer's own notes only. */
  readonly continues?: boolean;
  /** Where the player asked for a new trial, integer microseconds from bar 1 beat 1, ascending. */
  readonly requestsUs?: readonly number[];
  /** Bars that do not count, 1-based: a stick fell. */
  readonly leftOutBars?: readonly number[];
  /** Trials, 1-based in the order of playing, whose pass was given by mistake. */
  readonly takenBack?: readonly number[];
}

/** What is known of a take besides what was played. */
export interface TakeHead {
  /** ISO 8601. */
  readonly startedAt: string;
  /** The phrase file as it was, text of its JSON. */
  readonly phraseText: string;
  /** Undefined in takes from before it was kept. */
  readonly player?: Player | undefined;
  readonly trials?: TakeTrials | undefined;
  /** What the player said of the last trial's time before it was told; undefined where nobody was asked. */
  readonly guess?: Guess | undefined;
  /** What the phrase was made of, where it is an exercise. */
  readonly exercise?: TakeExercise | undefined;
}

/** The strokes of one stretch of playing, with what they were played to. */
export interface Take extends TakeHead {
  readonly passages: readonly Passage[];
  readonly tempos: readonly TempoChange[];
  readonly countInBars: number;
  /** When playing was stopped, integer microseconds from bar 1 beat 1. */
  readonly endUs: number;
  readonly kit: Kit;
  /** The rig's part of every offset: taken off the messages' times before anything is judged. */
  readonly deviceOffsetMs: number;
  readonly toleranceMs: number | undefined;
  readonly reachMs: number | undefined;
  /** Absent where the click never stopped. */
  readonly silentBars?: SilentBars | undefined;
  readonly messages: readonly RawMessage[];
}
