import type { Phrase } from '../phrase';
import { playability } from '../playability/playability';
import { distance } from './distance';
import type { Varied } from './varied';

/** A varied phrase that can be played, differs from the original, and says how. */
export interface Variation extends Varied {
  /** From the original, see distance; above 0. */
  readonly distance: number;
  /** At the tempo it is offered for, with all layers on, see playability. */
  readonly difficulty: number;
}

/**
 * A varied phrase as it may be offered: undefined when nothing sounds different, or some layer of it cannot be
 * played at the tempo (the original's unless told otherwise).
 */
export function offer(
  original: Phrase,
  made: Varied | undefined,
  bpm: number = original.tempoBpm,
): Variation | undefined {
  if (!made) return undefined;
  const { phrase, sentence } = made;
  let difficulty = 0;
  for (let layer = phrase.layers.length; layer > 0; layer--) {
    const played = playability(phrase, layer, bpm);
    if (played.problems.length > 0) return undefined;
    if (layer === phrase.layers.length) difficulty = played.difficulty;
  }
  const apart = distance(original, phrase);
  return apart > 0 ? { phrase, sentence, distance: apart, difficulty } : undefined;
}
