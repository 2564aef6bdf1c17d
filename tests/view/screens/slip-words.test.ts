import { expect, it } from 'vitest';
import type { LaneMark } from '../../../src/live/lane-feed';
import { slipWords } from '../../../src/view/screens/log/slip-bands';
import { harbourPlan } from '../../coach/practice-take';

/** Bars of a second, each with a mark at its beginning and one in its middle. */
const marks = Array.from({ length: 16 }, (_, i): LaneMark => ({
  timeUs: i * 500_000,
  kind: i % 2 === 0 ? 'bar' : 'beat',
  bar: Math.floor(i / 2) + 1,
  label: i % 2 === 0 ? '1' : '3',
}));
const wordsOf = (partials: number, fromUs: number, toUs: number | undefined) =>
  slipWords(
    { plan: harbourPlan(), lane: { marks } },
    { partials, passage: 0, fromUs, toUs, certainUs: fromUs, repeats: 16 },
  );

it.each([
  [1, 2_500_000, undefined, 'one sixteenth late from bar 3 on'],
  [-2, 2_500_000, 4_500_000, 'two sixteenths early from bar 3 to 5'],
  // It ends before that time: nothing of bar 5 is in it.
  [1, 2_500_000, 4_000_000, 'one sixteenth late from bar 3 to 4'],
  [1, 2_500_000, 3_000_000, 'one sixteenth late in bar 3'],
  [1, 2_000_000, 2_500_000, 'one sixteenth late in bar 3'],
])('a slip of %i partials from %i to %s µs is told with its bars', (partials, from, to, words) => {
  expect(wordsOf(partials, from, to)).toBe(words);
});
