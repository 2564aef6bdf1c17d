import { cycleNotes, pickupNotes } from '../../../phrase/layers/expand';
import type { Phrase } from '../../../phrase/model/phrase';
import { voiceNumber, type Voice } from '../../../phrase/model/voice';

/** Shown beside the phrase's own, so that a wrong voice can be struck too. */
const ALWAYS: readonly Voice[] = ['crash', 'hi-hat closed', 'ride', 'snare', 'bass drum'];

/** The pads a layer (1-based) needs, cymbals first, in staff order. */
export function padVoices(phrase: Phrase | undefined, layer: number): readonly Voice[] {
  const written = phrase ? [...pickupNotes(phrase, layer), ...cycleNotes(phrase, layer, 1, 1)] : [];
  return [...new Set([...written.map(({ voice }) => voice), ...ALWAYS])].sort(
    (a, b) => voiceNumber(a) - voiceNumber(b),
  );
}
