import { trustDraft } from '../check/draft-check';
import { inOtherHand, type Limb } from '../model/limb';
import type { Phrase } from '../model/phrase';
import { draftOf } from '../model/phrase-draft';
import { rewrite } from '../vary/rewrite';
import { MIRRORING } from '../vary/rewriting-twists';

/**
 * A phrase led by the other hand: R and L change places in all its layers, grace notes too; voices, levels and places
 * stay. Every check looks at both hands alike, so that it is right where the phrase is.
 *
 * @example leadingHand(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'lR L K', layers: [{ name: 'Sticking' }] }).value).groupingText // => 'rL R K'
 */
export function leadingHand(phrase: Phrase): Phrase {
  const draft = rewrite(draftOf(phrase), MIRRORING);
  return trustDraft({ ...draft, grouping: draft.grouping.replace(/[RLrl]/g, otherLetter) });
}

const otherLetter = (letter: string): string =>
  letter < 'a'
    ? inOtherHand(letter as Limb)
    : inOtherHand(letter.toUpperCase() as Limb).toLowerCase();
