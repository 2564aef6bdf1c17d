import { trustDraft } from '../check/draft-check';
import type { Limb } from '../model/limb';
import type { Phrase } from '../model/phrase';
import { draftOf } from '../model/phrase-draft';
import { rewrite } from '../vary/rewrite';

/**
 * A phrase led by the other hand: R and L change places in all its layers, grace notes too; voices, levels and places
 * stay. Every check looks at both hands alike, so that it is right where the phrase is.
 *
 * @example leadingHand(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'lR L K', layers: [{ name: 'Sticking' }] }).value).groupingText // => 'rL R K'
 */
export function leadingHand(phrase: Phrase): Phrase {
  const draft = rewrite(draftOf(phrase), { limb: (limb) => OTHER[limb] });
  return trustDraft({ ...draft, grouping: draft.grouping.replace(/[RLrl]/g, otherLetter) });
}

const OTHER: Readonly<Record<Limb, Limb>> = { R: 'L', L: 'R', K: 'K', F: 'F' };

const otherLetter = (letter: string): string =>
  letter < 'a' ? OTHER[letter as Limb] : OTHER[letter.toUpperCase() as Limb].toLowerCase();
