import { trialsOf } from '../score/trials';
import type { TakeTrials } from '../take/take';
import type { LiveTake } from './live-take';

/** How many trials of a take have begun, one that begins now not counted. */
export const trialsSoFar = (take: LiveTake, nowUs: number, options: TakeTrials): number =>
  trialsOf(take.timeline.plan, take.judgement(0, take.noteCount), { ...options, endUs: nowUs })
    .length;
