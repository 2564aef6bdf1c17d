// What figures and log say of a take.
export { cycleShare } from '../../live/cycle-share';
export { finalStats, liveStats } from '../../live/live-stats';
export { openTake } from '../../live/open-take';
export { summaryOf } from '../../live/summary-of';
export { trialsSoFar } from '../../live/trials-so-far';

/** Of a take without figures: its parts stay in the journal, and the next start finds that it cannot be judged. */
export const NOT_JUDGED =
  'This take cannot be judged. What was struck is kept all the same: after a reload it stands in the log under What is kept, where it can be saved as a file.';
