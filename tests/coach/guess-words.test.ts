import { expect, it } from 'vitest';
import { guessWords } from '../../src/coach/guess-words';
import type { Guess } from '../../src/take/guess';

it.each<[Guess, number | undefined, string]>([
  ['late', 12.4, 'Guessed: late. Played: 12 ms late on average.'],
  ['early', 12.4, 'Guessed: early. Played: 12 ms late on average.'],
  ['early', -6, 'Guessed: early. Played: 6 ms early on average.'],
  ['fine', 5.9, 'Guessed: fine. Played: fine, within 6 ms of the click on average.'],
  ['late', undefined, 'Guessed: late. Nothing was played in time enough to compare.'],
])('%s, played %d', (guess, meanMs, words) => {
  expect(guessWords(guess, meanMs)).toBe(words);
});
