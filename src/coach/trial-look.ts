import type { LevelBoundaries } from '../kit/kit';
import type { Plan } from '../match/plan';
import type { LayerTrial } from '../score/trials';
import type { TempoLook } from './by-tempo-words';
import { findings } from './findings';
import type { Slip } from './place/slip';

/**
 * What stands out first of one trial, by itself.
 *
 * @param boundaries the player's level boundaries for a pad (MIDI note number)
 * @param slips where the place was lost in the take, where that is known already
 * @example trialLook({ phrase: checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, passages: [{ fromBar: 1, layer: 1 }], tempo: steadyTempo(90), windows: {} }, { bpm: 90, judgement: { notes: [], extras: [] } }, () => ({ ghostMax: 50, accentMin: 95 })).code // => 'undecided'
 */
export function trialLook(
  plan: Plan,
  { bpm, judgement }: Pick<LayerTrial, 'bpm' | 'judgement'>,
  boundaries: (pad: number) => LevelBoundaries,
  slips?: readonly Slip[],
): TempoLook & Required<Pick<TempoLook, 'code'>> {
  const { code, text } = findings(plan, judgement, boundaries, slips && { slips })[0]!;
  return { bpm, code, finding: text };
}
