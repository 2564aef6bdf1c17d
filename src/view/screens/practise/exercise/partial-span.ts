import type { Excerpt } from '../../../../phrase/exercise/excerpt-words';
import { excerptPlaces } from '../../../../phrase/exercise/excerpt-places';
import type { PracticeTarget } from '../../../../practice/whole-target';
import { clamp } from '../../../../time/whole';
import type { Band } from '../../../lane/draw-band';

/** Where the partials of a resting lane lie: it has one tempo, and swing moves no partial by as much as half of one. */
export interface PartialSpan {
  /** The nearest partial from bar 1 beat 1 that an excerpt can have. */
  partialAt(us: number): number;
  bandOf(excerpt: Excerpt): Band;
}

export function partialSpan({ phrase, layer }: PracticeTarget, bpm: number): PartialSpan {
  const { from, to, subdivision } = excerptPlaces(phrase, layer);
  const partialUs = 60e6 / bpm / subdivision;
  return {
    partialAt: (us) => clamp(Math.round(us / partialUs), from, to),
    bandOf: (excerpt) => ({ fromUs: excerpt.from * partialUs, toUs: excerpt.to * partialUs }),
  };
}
