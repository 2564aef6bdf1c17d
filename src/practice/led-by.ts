import { leadingHand } from '../phrase/exercise/leading-hand';
import type { Phrase } from '../phrase/model/phrase';
import type { Choices } from './choices';

/** A phrase as its player reads it. */
export const ledBy = (phrase: Phrase, hand: Choices['leadingHand']): Phrase =>
  hand === 'as written' ? phrase : leadingHand(phrase);
