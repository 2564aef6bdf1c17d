import { LIMBS, type Limb } from '../model/limb';
import { findSticking, type LimblessNote } from './find-sticking';
import { isFootVoice } from './places';

/** A note with the limb that strikes it, as far as somebody said. */
export interface PartlyLimblessNote extends LimblessNote {
  readonly limb: Limb | undefined;
}

/**
 * A limb for each note: the one that is said, else the likeliest, else the other of its pair that strikes nothing else at
 * that partial. Undefined for a note that no limb is left for. Notes in time order, of a cycle of so many partials.
 */
export function fillInLimbs(
  notes: readonly PartlyLimblessNote[],
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
  const said = notes.map(({ partial, limb }) => take(partial, limb));
  if (notes.every(({ limb }) => limb !== undefined)) return said;
  const { limbs: likely } = findSticking(notes, partials, partialUs);
  return notes.map(({ partial, voice, limb }, i) => {
    if (limb !== undefined) return said[i];
    const pair = isFootVoice(voice) ? LIMBS.slice(2) : LIMBS.slice(0, 2);
    for (const choice of [likely[i], ...pair]) {
      const found = take(partial, choice);
      if (found !== undefined) return found;
    }
    return undefined;
  });
}
