import { parsePhrase } from '../../../phrase/file/parse-phrase';
import { targetKey } from '../../../phrase/layers/target-key';
import type { Phrase } from '../../../phrase/model/phrase';
import { LEADING_HANDS, type Choices } from '../../../practice/choices';
import { ledBy } from '../../../practice/led-by';
import type { LibraryPhrase } from '../../../practice/library.svelte';
import type { TakeExercise } from '../../../take/take-exercise';

/** A phrase that can be practised, and the hand that led it in a take. */
export interface PhraseOfTake {
  readonly entry: LibraryPhrase;
  readonly leadingHand: Choices['leadingHand'];
}

/**
 * The phrase whose layer (1-based) was played to in a take, as it is now: of that title and with the same notes, led by
 * either hand; `first` is tried first. Undefined where it has been changed since, and for an exercise.
 */
export function phraseOfTake(
  phrases: readonly LibraryPhrase[],
  played: Phrase,
  layer: number,
  first: Choices['leadingHand'],
): PhraseOfTake | undefined {
  const key = targetKey(played, layer);
  const hands = LEADING_HANDS.toSorted((a, b) => Number(b === first) - Number(a === first));
  for (const entry of phrases) {
    const { phrase } = entry;
    if (phrase.title !== played.title || layer > phrase.layers.length) continue;
    for (const hand of hands) {
      if (targetKey(ledBy(phrase, hand), layer) === key) return { entry, leadingHand: hand };
    }
  }
  return undefined;
}

/** The phrase that an exercise was made of, as it is now; undefined where it has been changed since. */
export function originOfExercise(
  phrases: readonly LibraryPhrase[],
  { phrase, layer }: TakeExercise,
  first: Choices['leadingHand'],
): PhraseOfTake | undefined {
  const parsed = parsePhrase(phrase);
  if (!parsed.ok || layer > parsed.value.layers.length) return undefined;
  return phraseOfTake(phrases, parsed.value, layer, first);
}
