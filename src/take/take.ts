import type { Kit } from '../kit/kit';
import type { RawMessage } from '../kit/raw-message';
import type { Passage } from '../phrase/model/passage';
import type { TempoChange } from '../time/tempo';

/** The strokes of one stretch of playing, with what they were played to. */
export interface Take {
  /** ISO 8601. */
  readonly startedAt: string;
  /** The phrase file as it was, text of its JSON. */
  readonly phraseText: string;
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
  readonly messages: readonly RawMessage[];
}
