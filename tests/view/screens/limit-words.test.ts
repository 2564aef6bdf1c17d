import { expect, it } from 'vitest';
import type { Loosened } from '../../../src/phrase/vary/proposals';
import { loosenWords } from '../../../src/view/screens/vary/limit-words';

it.each<[Loosened, string]>([
  [
    { limit: 'highestDifficulty', found: 8, figures: [27.34] },
    'Without the limit on difficulty there would be 8 variations, the easiest at 27.3.',
  ],
  [
    { limit: 'distance', found: 5, figures: [0.254, 17.416] },
    'Without the limits on distance there would be 5 variations, 0.25 to 17.42 away.',
  ],
  [
    { limit: 'voices', found: 1, figures: [] },
    'With all voices allowed there would be 1 variation.',
  ],
  [
    { limit: 'limbs', found: 2, figures: [] },
    'With all limbs allowed there would be 2 variations.',
  ],
  [{ limit: 'bpm', found: 3, figures: [53] }, 'At 53 bpm there would be 3 variations.'],
])('says what there would be without a limit: %o', (loosened, words) => {
  expect(loosenWords(loosened)).toBe(words);
});
