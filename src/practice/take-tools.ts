// What a take needs from its start until it is in the log. The page does not come with it; a take does not begin without it.
export { InterruptionWatch } from './interruption-watch';
export { TakeJournalKeeper } from './take-journal-keeper';
export { TakeRun } from './take-run';
export { finalStats, liveStats, openTake, summaryOf, trialsSoFar } from './take-scoring';
