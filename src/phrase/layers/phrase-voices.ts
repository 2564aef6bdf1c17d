import type { Phrase } from '../model/phrase';
import { VOICES, type Voice } from '../model/voice';
import { expand } from './expand';
import { realignment } from './realignment';

/**
 * Every voice that a phrase sounds at any of its layers, until its cycle comes round against the bar.
 *
 * @example phraseVoices(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value) // => ['snare', 'bass drum']
 */
export function phraseVoices(phrase: Phrase): readonly Voice[] {
  const sounding = new Set<Voice>();
  for (let layer = 1; layer <= phrase.layers.length; layer++) {
    const { cycles } = realignment(phrase, layer);
    for (const { voice } of expand(phrase, layer, { cycles })) sounding.add(voice);
  }
  return VOICES.filter((voice) => sounding.has(voice));
}
