import type { Phrase } from '../model/phrase';
import { VOICES, type Voice } from '../model/voice';
import { layerStack } from './layer-stack';

/**
 * Every voice that a phrase sounds at any of its layers, until all of the layer repeats.
 *
 * @example phraseVoices(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value) // => ['snare', 'bass drum']
 */
export function phraseVoices(phrase: Phrase): readonly Voice[] {
  const sounding = new Set<Voice>();
  for (let layer = 1; layer <= phrase.layers.length; layer++) {
    const stack = layerStack(phrase, layer);
    const cycles = Math.min(stack.period, stack.cyclesInReach);
    for (let cycle = 0; cycle <= cycles; cycle++)
      for (const { voice } of stack.pattern(cycle)) sounding.add(voice);
  }
  return VOICES.filter((voice) => sounding.has(voice));
}
