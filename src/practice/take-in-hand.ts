import type { LiveTake } from '../live/live-take';
import type { TakeHead } from '../take/take';
import type { Choices } from './choices';
import type { InterruptionWatch } from './interruption-watch';
import type { TakeTools } from './load-take-tools';
import type { SessionDependencies } from './session-dependencies';
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

/** What a take that is being played asks, and whom it tells. */
export interface TakeEars {
  readonly choices: () => Choices;
  readonly head: () => TakeHead;
  /** Cycle `at` (0-based, of all laid out) is over. */
  readonly onCycle: (inHand: TakeInHand, at: number) => void;
  readonly onTick: (inHand: TakeInHand) => void;
  /** What was played has been read again by another kit. */
  readonly onReadAgain: (inHand: TakeInHand) => void;
  /** What has interrupted the take and is over. */
  readonly tellInterruption: (sentence: string) => void;
  /** Why nothing of it can be written down; undefined when it can again. */
  readonly tellUnwritten: (sentence: string | undefined) => void;
}

/** A take ready to run, with its journal and the watch over its interruptions. */
export function takeInHand(
  dependencies: SessionDependencies,
  tools: TakeTools,
  take: LiveTake,
  ears: TakeEars,
): TakeInHand {
  const { journal } = dependencies;
  const { choices, head } = ears;
  const run: TakeRun = new tools.TakeRun(dependencies, {
    take,
    click: () => choices().click,
    reference: () => choices().reference,
    count: () => choices().count,
    onCycle: (at) => ears.onCycle(inHand, at),
    onTick: () => ears.onTick(inHand),
    onMessage: (stampUs) => interruptions.delivered(stampUs / 1000, run.nowUs() / 1000),
    onReadAgain: () => ears.onReadAgain(inHand),
  });
  const keeper = new tools.TakeJournalKeeper(
    { journal, tell: (problem) => ears.tellUnwritten(problem?.message) },
    head,
  );
  const interruptions = new tools.InterruptionWatch({
    bar: () => run.bar,
    tell: ears.tellInterruption,
  });
  const inHand: TakeInHand = { run, journal: keeper, interruptions, tools, head };
  return inHand;
}
