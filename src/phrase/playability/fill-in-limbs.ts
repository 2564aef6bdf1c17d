import { findSticking } from '../phrase/playability/find-sticking';
import { LIMBS, type Limb } from '../phrase/model/limb';
import { isFootVoice } from '../phrase/playability/places';
import type { WrittenNote } from './written-notes';

/** A note at its place, with the limb that strikes it as far as it is known. */
export interface HandOnPartial {
  readonly partial: number;
  readonly main: Pick<WrittenNote, 'voice' | 'limb'>;
}

/**
 * A limb for each note: the one that the file names, else the likeliest hand, which is not taken at that partial.
 * Undefined for a note that no limb is left for. Notes in time order, of one round.
 */
export function writtenHands(
  notes: readonly HandOnPartial[],
  partials: number,
  partialUs: number,
): readonly (Limb | undefined)[] {
  const taken = new Set<string>();
  const take = (partial: number, limb: Limb | undefined) => {
    const place = `${partial} ${limb}`;
    if (limb === undefined || taken.has(place)) return undefined;
    taken.add(place);
    return limb;
  };
  const named = notes.map(({ partial, main }) => take(partial, main.limb));
  if (notes.every(({ main }) => main.limb !== undefined)) return named;
  const guess = findSticking(
    notes.map(({ partial, main }) => ({ partial, voice: main.voice })),
    partials,
    partialUs,
  ).limbs;
  return notes.map(({ partial, main }, i) => {
    if (main.limb !== undefined) return named[i];
    const hands = LIMBS.slice(0, 2);
    const choices = isFootVoice(main.voice) ? [guess[i]] : [guess[i], ...hands];
    for (const choice of choices) {
      const limb = take(partial, choice);
      if (limb !== undefined) return limb;
    }
    return undefined;
  });
}
