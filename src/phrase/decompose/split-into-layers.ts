import type { Phrase } from '../model/phrase';
import { decompose } from './decompose';
import { targetPattern } from './target-pattern';

/**
 * A phrase with layers of one idea each in the order they are taught, which sounds the same as all of its own together.
 * It is the phrase itself where nothing sounds, or where the notes take too long to repeat to be written out.
 *
 * @example splitIntoLayers(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L', layers: [{ name: 'All', changes: [{ where: { limb: 'L' }, set: { voice: 'floor tom', level: 'ghost' } }] }] }).value).layers.map((layer) => layer.name) // => ['Sticking', 'Toms', 'Ghosts']
 */
export function splitIntoLayers(phrase: Phrase): Phrase {
  const pattern = targetPattern(phrase, phrase.layers.length);
  const proposal = pattern.ok ? decompose(pattern.value, phrase.title) : pattern;
  return proposal.ok ? proposal.value : phrase;
}
