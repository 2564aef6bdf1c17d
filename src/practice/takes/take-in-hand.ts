import type { LiveStats } from '../../live/live-stats';
import type { LiveTake } from '../../live/live-take';
import type { Upcoming } from '../../live/upcoming';
import type { TakeHead } from '../../take/take';
import type { Choices } from '../choices';
import type { InterruptionWatch } from '../interruption-watch';
import { finishedTake } from './finished-take';
import type { TakeTools } from './load-take-tools';
import type { TakeProblems } from './take-problems.svelte';
import type { PlaceHelp } from '../place-help.svelte';
import type { SessionDependencies } from '../session-dependencies';
import type { TakeJournalKeeper } from './take-journal-keeper';
import type { TakeRun } from './take-run';

/** A take that is being played, and all that goes on beside it. */
export interface TakeInHand {
  readonly run: TakeRun;
  readonly journal: TakeJournalKeeper;
  readonly interruptions: InterruptionWatch;
  readonly placeHelp: PlaceHelp;
  readonly tools: TakeTools;
  readonly head: () => TakeHead;
}

/** What a take that is being played asks, and whom it tells. */
export interface TakeEars {
  readonly choices: () => Choices;
  readonly head: () => TakeHead;
  /** A cycle is over; its share as written is undefined where it does not count. */
  readonly onCycle: (stats: LiveStats, share: number | undefined) => void;
  readonly onTick: (inHand: TakeInHand) => void;
  /** What was played has been read again by another kit. */
  readonly onReadAgain: (inHand: TakeInHand) => void;
  /** What was decided for it while the place was lost. */
  readonly announce: (run: TakeRun, changes: readonly Upcoming[]) => void;
  /** It is as long as a take may be. */
  readonly onFull: () => void;
  /** What has interrupted the take and is over. */
  readonly tellInterruption: (sentence: string) => void;
  /** Told why nothing of it can be written down, and why it has ended. */
  readonly problems: Pick<TakeProblems, 'unwritten' | 'ended'>;
}

/** A take ready to run, with its journal and the watch over its interruptions. */
export function takeInHand(
  dependencies: SessionDependencies,
  tools: TakeTools,
  take: LiveTake,
  ears: TakeEars,
): TakeInHand {
  const { journal } = dependencies;
  const { choices, head, problems } = ears;
  const run: TakeRun = new tools.TakeRun(dependencies, {
    take,
    click: () => choices().click,
    reference: () => choices().reference,
    count: () => choices().count,
    onCycle: (at) => {
      const { trials = {} } = head();
      const stats = tools.liveStats(run.take, at, trials);
      ears.onCycle(stats, tools.cycleShare(run.take, at, trials.leftOutBars));
    },
    onTick: () => {
      placeHelp.look();
      ears.onTick(inHand);
      keeper.tick(run);
      interruptions.tick(run.nowUs() / 1000);
    },
    onMessage: (stampUs) => interruptions.delivered(stampUs / 1000, run.nowUs() / 1000),
    onReadAgain: () => ears.onReadAgain(inHand),
    room: new tools.TakeRoom(tools.writeTake(finishedTake(take, head(), 0)).length),
    onFull: () => {
      problems.ended = tools.TAKE_FULL;
      ears.onFull();
    },
  });
  dependencies.onRun?.(run);
  const keeper = new tools.TakeJournalKeeper(
    { journal, tell: (problem) => (problems.unwritten = problem?.message) },
    head,
  );
  const interruptions = new tools.InterruptionWatch({
    bar: () => run.bar,
    tell: ears.tellInterruption,
  });
  const placeHelp = new tools.PlaceHelp(run, (changes) => ears.announce(run, changes));
  const inHand: TakeInHand = { run, journal: keeper, interruptions, placeHelp, tools, head };
  return inHand;
}
