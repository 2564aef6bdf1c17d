import { expect, it } from 'vitest';
import { LIMBS } from '../../../src/phrase/model/limb';
import type { Loosened } from '../../../src/phrase/vary/proposals';
import { drawnWords, limitsWords, loosenWords } from '../../../src/view/screens/vary/limit-words';

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

it('says which limits are set, those of none apart', () => {
  const all = { limbs: LIMBS, voices: ['snare', 'ride'] } as const;
  expect(limitsWords(all, 2)).toBe('');
  expect(limitsWords({ ...all, limbs: ['R', 'L', 'K'] }, 12)).toBe('3 of 4 limbs, 2 of 12 voices');
  expect(
    limitsWords({ ...all, highestDifficulty: 0, leastDistance: 1.5, mostDistance: 6 }, 2),
  ).toBe('difficulty up to 0, at least 1.5 away, at most 6 away');
});

it('says what was drawn from a seed, and what the original is', () => {
  const original = { strokes: 12, difficulty: 27.6 };
  expect([drawnWords(0, 7, 88, original), drawnWords(1, 7, 88.5, original)]).toEqual([
    'No variations from seed 7, playable at 88 bpm. The original has 12 strokes in a cycle and a difficulty of 28.',
    '1 variation from seed 7, playable at 88.5 bpm. The original has 12 strokes in a cycle and a difficulty of 28.',
  ]);
});
