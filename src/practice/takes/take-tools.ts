// What the lane and a take need, until it is in the log. The page does not come with it; a take does not begin without it.
export { LiveTake } from '../../live/live-take';
export { chosenTimeline, previewLane } from '../chosen-timeline';
export { InterruptionWatch } from '../interruption-watch';
export { PlaceHelp } from '../place-help.svelte';
export { writeTake } from '../../take/take-json';
export { practiceTarget } from '../practice-target';
export { TakeJournalKeeper } from './take-journal-keeper';
export { TAKE_FULL, TakeRoom } from './take-room';
export { TakeRun } from './take-run';
export { TempoPlanning } from '../tempo-planning.svelte';
export {
  cycleShare,
  finalStats,
  liveStats,
  NOT_JUDGED,
  openTake,
  summaryOf,
  trialsSoFar,
} from './take-scoring';
