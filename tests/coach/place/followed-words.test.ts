import { expect, it } from 'vitest';
import { followedWords } from '../../../src/coach/place/followed-words';
import { percentText } from '../../../src/view/figures/format';
import { harbourNotes, judged, play } from '../practice-take';

const notes = harbourNotes(12, 1);
const whole = judged(notes, play(notes, {}, 1));
const allButOne = judged(notes, play(notes, {}, 1).slice(1));

it('a take against the place that was played is told beside the click, and 100 % only where all is', () => {
  expect(followedWords(allButOne, whole, percentText)).toEqual([
    'Against the click 99\u00a0% as written, against the place that was played 100\u00a0%.',
  ]);
  expect(followedWords(whole, allButOne, percentText)).toEqual([
    'Against the click 100\u00a0% as written, against the place that was played 99\u00a0%.',
  ]);
  expect(followedWords(whole, undefined, percentText)).toEqual([]);
});
