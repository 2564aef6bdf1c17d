import { expect, it } from 'vitest';
import { descriptionLength } from '../../../src/phrase/decompose/description-length';
import type { ChangeFile } from '../../../src/phrase/model/phrase-file';
import { layeredPhrase, phraseOf } from '../phrase-of';

it.each([
  ['two strokes', {}, 2],
  ['a rest is said as well', { grouping: 'R - -' }, 3],
  ['each stroke of a unison, each grace note', { grouping: 'llR+K L' }, 5],
  ['a cycle of another length', { cycle: 8 }, 3],
  ['a swing', { swing: '2:1' }, 3],
])('%s', (_, file, words) => {
  expect(descriptionLength(phraseOf(file))).toBe(words);
});

// Each on a grouping of two words with one layer more, which costs one for its name.
it.each<[string, ChangeFile, number]>([
  ['limb, level', { where: { limb: 'R' }, set: { level: 'accent' } }, 2],
  ['everything, level', { where: {}, set: { level: 'accent' } }, 1],
  ['positions, two of them, voice', { where: { positions: [1, 2] }, set: { voice: 'crash' } }, 4],
  [
    'every, seven, places, two of them, voice',
    { where: { every: { partials: 7, at: [1, 4] } }, set: { voice: 'crash' } },
    6,
  ],
  ['not, limb, level', { where: { not: { limb: 'R' } }, set: { level: 'ghost' } }, 3],
  [
    'any, limb, nth, one, level',
    { where: { any: [{ limb: 'R' }, { nth: [1] }] }, set: { level: 'ghost' } },
    5,
  ],
  ['every, four, from', { accentEvery: 4, from: 2 }, 3],
  [
    'add, where, limb, voice',
    { add: [{ position: 1, limb: 'F', voice: 'hi-hat foot splash' }] },
    4,
  ],
  [
    'pickup, two strokes',
    {
      pickup: [
        { partialsBefore: 2, limb: 'R' },
        { partialsBefore: 1, limb: 'L' },
      ],
    },
    5,
  ],
  ['displace, by how much', { displace: 1 }, 2],
])('%s', (_, change, words) => {
  expect(descriptionLength(layeredPhrase({}, [change]))).toBe(3 + words);
});
