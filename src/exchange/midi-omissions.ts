import { expand } from '../phrase/layers/expand';
import { realignment } from '../phrase/layers/realignment';
import type { Phrase } from '../phrase/model/phrase';

/**
 * What a MIDI file of these layers (1-based) does not hold of a phrase, in sentences.
 *
 * @throws RangeError when the phrase has no such layer.
 * @example midiOmissions(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }, { name: 'Accents' }] }).value, [2]) // => ['Layer 2 of 2 is written; the file does not say which layer made a note.']
 */
export function midiOmissions(phrase: Phrase, layers: readonly number[]): readonly string[] {
  const { length } = phrase.layers;
  const [only] = layers;
  const hasSplash = layers.some((layer) =>
    expand(phrase, layer, { bars: realignment(phrase, layer).bars }).some(
      ({ voice }) => voice === 'hi-hat foot splash',
    ),
  );
  return [
    ...(layers.length === 1 && length > 1
      ? [`Layer ${only} of ${length} is written; the file does not say which layer made a note.`]
      : []),
    ...(hasSplash
      ? ['General MIDI has no key for a foot splash: it is written as the hi-hat pedal.']
      : []),
  ];
}
