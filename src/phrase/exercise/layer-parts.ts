import { layerStack } from '../layers/layer-stack';
import { LIMBS, type Limb } from '../model/limb';
import type { Phrase } from '../model/phrase';
import { VOICES, type Voice } from '../model/voice';

/** Who and what a layer is played with. */
export interface LayerParts {
  /** In the order of LIMBS. */
  readonly limbs: readonly Limb[];
  /** In the order of VOICES. */
  readonly voices: readonly Voice[];
}

/** Cycles that are looked through. Chosen, not measured: more than a phrase that is practised takes to repeat. */
const MOST_CYCLES = 64;

/**
 * The limbs and voices of the main notes of a layer (1-based).
 *
 * @throws RangeError when the phrase has no such layer.
 * @example layerParts(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, 1) // => { limbs: ['R', 'L', 'K'], voices: ['snare', 'bass drum'] }
 */
export function layerParts(phrase: Phrase, layer: number): LayerParts {
  const stack = layerStack(phrase, layer);
  const cycles = Math.min(stack.period, stack.cyclesInReach, MOST_CYCLES);
  const limbs = new Set<Limb>();
  const voices = new Set<Voice>();
  for (let cycle = 0; cycle <= cycles; cycle++)
    for (const { limb, voice, graceStep } of stack.pattern(cycle)) {
      if (graceStep > 0) continue;
      limbs.add(limb);
      voices.add(voice);
    }
  return {
    limbs: LIMBS.filter((limb) => limbs.has(limb)),
    voices: VOICES.filter((voice) => voices.has(voice)),
  };
}
