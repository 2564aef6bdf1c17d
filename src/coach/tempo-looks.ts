import type { LevelBoundaries } from '../kit/kit';
import type { Plan } from '../match/plan';
import type { Judgement } from '../score/judge';
import { trialsOf, type TrialOptions } from '../score/trials';
import type { TempoLook } from './by-tempo-words';
import type { Slip } from './place/slip';
import { trialLook } from './trial-look';

/**
 * What stood out of the layer played last in each of a take's trials, the last one first.
 *
 * @param boundaries the player's level boundaries for a pad (MIDI note number)
 * @param slips where the place was lost in the take, where that is known already
 * @throws RangeError when the threshold or the chance of a wrong pass is out of range.
 * @example tempoLooks({ phrase: checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, passages: [{ fromBar: 1, layer: 1 }], tempo: steadyTempo(90), windows: {} }, { notes: [], extras: [] }, () => ({ ghostMax: 50, accentMin: 95 })) // => []
 */
export function tempoLooks(
  plan: Plan,
  judgement: Judgement,
  boundaries: (pad: number) => LevelBoundaries,
  options: TrialOptions = {},
  slips?: readonly Slip[],
): TempoLook[] {
  const trials = trialsOf(plan, judgement, options);
  const last = trials.at(-1)?.layer;
  return trials
    .filter(({ layer }) => layer === last)
    .map((trial) => trialLook(plan, trial, boundaries, slips))
    .reverse();
}
