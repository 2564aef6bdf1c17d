import { describe, expect, it } from 'vitest';
import { createWireless } from '../../../src/kit/faults/wireless';

/** The grid found in stamps so many ms apart. */
function gridOf(gapsMs: readonly number[]) {
  const wireless = createWireless();
  let us = 0;
  wireless.add(us);
  for (const gap of gapsMs) {
    us += Math.round(gap * 1000);
    wireless.add(us);
  }
  return wireless.grid?.ms;
}
/** Steps of the longest radio grid, of all lengths from 60 to 315 ms. */
const steps = (count: number) => Array.from({ length: count }, (_, i) => 15 * (4 + ((7 * i) % 18)));
/** The same, each so much too long or too short by turns. */
const shaken = (ms: number) => steps(72).map((gap, i) => gap + (i % 2 === 0 ? ms : -ms));
/** The same, a number of them half a step longer. */
const halved = (count: number) => steps(108).map((gap, i) => gap + (i < count ? 7.5 : 0));

describe('a grid of time stamps', () => {
  it.each([
    ['40 gaps', steps(40), 15],
    ['39 gaps', steps(39), undefined],
    ['39 gaps and one of 400 ms', [...steps(39), 400], 15],
    ['39 gaps and one longer than 400 ms', [...steps(39), 400.001], undefined],
    ['39 gaps and one of 2 ms', [...steps(39), 2], 15],
    ['39 gaps and one shorter than 2 ms', [...steps(39), 1.999], undefined],
    // Off by a sixth of the step, the mean cosine is cos 60° = 0.5.
    ['gaps less than a sixth of a step off', shaken(2.49), 15],
    ['gaps more than a sixth of a step off', shaken(2.51), undefined],
    // Of 108 gaps 10 off by half leave 0.81 of the clearness to the longer grid, and 12 leave 0.78.
    ['all but a few of twice the step', halved(10), 15],
    ['a few more of one step', halved(12), 7.5],
  ])('%s', (_, gaps, ms) => {
    expect(gridOf(gaps)).toBe(ms);
  });
});
