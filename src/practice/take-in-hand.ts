import type { TakeHead } from '../take/take';
import type { InterruptionWatch } from './interruption-watch';
import type { TakeTools } from './load-take-tools';
import type { TakeJournalKeeper } from './take-journal-keeper';
import type { TakeRun } from './take-run';

/** A take that is being played, and all that goes on beside it. */
export interface TakeInHand {
  readonly run: TakeRun;
  readonly journal: TakeJournalKeeper;
  readonly interruptions: InterruptionWatch;
  readonly tools: TakeTools;
  readonly head: () => TakeHead;
}
