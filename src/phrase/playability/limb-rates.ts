import { LIMBS, type Limb } from '../model/limb';
import type { Phrase } from '../model/phrase';
import { layerStack } from '../layers/layer-stack';
import { motion } from './motion';
import { strokesPerBeat } from './rates';

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
  const { strokesByLimb } = motion(layerStack(phrase, layer));
  return strokesByLimb.flatMap((strokes, i) =>
    strokes.length > 0
      ? [{ limb: LIMBS[i]!, perSecond: (strokesPerBeat(strokes) * bpm) / 60 }]
      : [],
  );
}
