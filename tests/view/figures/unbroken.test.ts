import { expect, it } from 'vitest';
import { unbroken } from '../../../src/view/figures/unbroken';

it.each([
  ['Left hand 20 ms ahead of the rest.', 'Left hand 20_ms ahead of the rest.'],
  ['Contrast 13 dB: accents too near the ghosts.', 'Contrast 13_dB: accents too near the ghosts.'],
  ['Dragging: 18 ms over 8 bars.', 'Dragging: 18_ms over 8_bars.'],
  ['Position 14, right hand: missed 12 of 20.', 'Position 14, right hand: missed 12_of 20.'],
  ['Bounces: 14 of 120 strokes.', 'Bounces: 14_of 120_strokes.'],
  ['Slipped one sixteenth late from bar 5 to 8.', 'Slipped one sixteenth late from bar 5 to 8.'],
])('%s', (sentence, kept) => {
  expect(unbroken(sentence).replaceAll('\u00a0', '_')).toBe(kept);
});
