import type { Limb } from '../../phrase/model/limb';
import { isFootVoice } from '../../phrase/playability/places';
import type { ReadNote } from './read-bars';
import type { StickingStroke } from './read-sticking';

/**
 * The limbs of notes struck at once, as far as the file says them. A row of text names them in any order, so feet take the
 * voices of feet, and hands the others from the top of the list; where the notes say the same limbs each by itself, that holds.
 */
export function limbsOf(
  notes: readonly ReadNote[],
  strokes: readonly StickingStroke[],
): readonly (Limb | undefined)[] {
  const own = notes.map(({ limb }) => limb);
  const limbs = new Set(strokes.map(({ limb }) => limb));
  const isSame = own.every((limb) => limb && limbs.has(limb)) && new Set(own).size === limbs.size;
  if (limbs.size === 0 || isSame) return withoutTwice(own);
  const found: (Limb | undefined)[] = notes.map(() => undefined);
  const give = (limb: Limb, isFor: (note: ReadNote, i: number) => boolean) => {
    const i = notes.findIndex((note, k) => found[k] === undefined && isFor(note, k));
    if (i >= 0) found[i] = limb;
  };
  for (const limb of limbs)
    if (limb === 'K') give(limb, ({ voice }) => voice === 'bass drum');
    else if (limb === 'F') give(limb, ({ voice }) => isFootVoice(voice) && voice !== 'bass drum');
  for (const limb of limbs)
    if (limb === 'R' || limb === 'L')
      give(limb, ({ voice }, i) => !isFootVoice(voice) && (own[i] ?? limb) === limb);
  for (const limb of limbs) if (!found.includes(limb)) give(limb, () => true);
  return found;
}

/** A limb that is asked for twice keeps its first note. */
const withoutTwice = (limbs: readonly (Limb | undefined)[]): readonly (Limb | undefined)[] =>
  limbs.map((limb, i) => (limbs.indexOf(limb) === i ? limb : undefined));
