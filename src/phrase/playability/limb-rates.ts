import { LIMBS, type Limb } from '../model/limb';
import type { Phrase } from '../model/phrase';
import { strokesOf, timeline } from '../layers/timeline';
import { strokesPerBeat } from './rates';

/** Beats that are looked at beyond the last cycle, so that a run over its end is seen. */
const LOOK_AHEAD_BEATS = 5;

/** How often one limb strikes where it is busiest. */
export interface LimbRate {
  readonly limb: Limb;
  /** Strokes a second, over 7 intervals in a row or all its strokes when they are fewer; 0 for a single stroke. */
  readonly perSecond: number;
}

/**
 * The limbs that a layer (1-based) uses, with their busiest rate at a tempo in beats per minute.
 *
 * @throws RangeError when the phrase has no such layer.
 * @example limbRates(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R', layers: [{ name: 'Sticking' }] }).value, 1, 105) // => [{ limb: 'R', perSecond: 7 }]
 */
export function limbRates(phrase: Phrase, layer: number, bpm: number): readonly LimbRate[] {
  const { notes } = timeline(phrase, layer, LOOK_AHEAD_BEATS);
  return LIMBS.flatMap((limb) => {
    const strokes = strokesOf(notes, limb);
    return strokes.length > 0 ? [{ limb, perSecond: (strokesPerBeat(strokes) * bpm) / 60 }] : [];
  });
}
