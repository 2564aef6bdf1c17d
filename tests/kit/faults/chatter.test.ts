import { describe, expect, it } from 'vitest';
import { createChatter } from '../../../src/kit/faults/chatter';

/** Faint strokes on one pad, so many ms apart. */
function chatterOf(gapsMs: readonly number[], velocity = 3): number {
  const chatter = createChatter();
  let us = 0;
  chatter.add(us, 38, velocity);
  for (const gap of gapsMs) {
    us += Math.round(gap * 1000);
    chatter.add(us, 38, velocity);
  }
  return chatter.report(String).length;
}
const even = (count: number, ms: number) => Array.from({ length: count }, () => ms);
/** Twenty intervals of 100 ms on the average, each so much longer or shorter by turns. */
const uneven = (byMs: number) =>
  Array.from({ length: 20 }, (_, i) => 100 + (i % 2 === 0 ? byMs : -byMs));

describe('chatter', () => {
  it.each([
    ['strokes as faint as 10', chatterOf(even(20, 20), 10), 1],
    ['strokes of 11', chatterOf(even(20, 20), 11), 0],
    ['20 intervals', chatterOf(even(20, 20)), 1],
    ['19 intervals', chatterOf(even(19, 20)), 0],
    ['20 intervals, one of a whole second', chatterOf([...even(19, 20), 1000]), 1],
    ['19 intervals and one of more than a second', chatterOf([...even(19, 20), 1000.001]), 0],
    ['an even stream as fast as two hands', chatterOf(even(20, 50)), 0],
    ['an even stream faster than that', chatterOf(even(20, 49.999)), 1],
    // Their standard deviation (n - 1) is √(20/19) of what each is off: 69.97 and 70.07 ms.
    ['intervals that scatter by less than 0.7 of their mean', chatterOf(uneven(68.2)), 0],
    ['intervals that scatter by more', chatterOf(uneven(68.3)), 1],
  ])('from %s', (_, found, expected) => {
    expect(found).toBe(expected);
  });
});
