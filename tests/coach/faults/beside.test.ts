import { describe, expect, it } from 'vitest';
import { besideOf } from '../../../src/coach/faults/beside';
import { judged, PARTIAL_MS } from '../practice-take';
import { perfectTake, strokeOn } from './perfect-take';

/** 16 positions of the cycle and four sixteenths of the beat: 20 places, each tried at a twentieth of the error rate. */
const { dues, strokes, evidenceIn } = perfectTake(16);
/** Just after each of these partials of the take, counted from 0. */
const after = (...partials: readonly number[]) =>
  partials.map((at, i) =>
    strokeOn('crash', Math.round(1000 * PARTIAL_MS * at) + 1000 * (i + 1), 90),
  );
const beside = (partials: readonly number[], errorRate = 0.02) => {
  const extras = after(...partials);
  const all = [...strokes, ...extras].sort((a, b) => a.timeUs - b.timeUs);
  return besideOf({ ...evidenceIn(judged(dues, all)), errorRate }, extras);
};
/** Position 3 in so many cycles, from the second on. */
const third = (times: number) => Array.from({ length: times }, (_, i) => 16 * (i + 1) + 2);
const ELSEWHERE = [5, 23, 40, 57];

describe('beside what most strokes are', () => {
  it('is what chance gives a place too seldom: the binomial tail', () => {
    // Position 3 has 16 of 255 partials: three or four of four, 4·q³·(1 − q) + q⁴ = 0.00094160 with q = 16/255; times 20, 0.018832.
    expect(beside([...third(3), 5], 0.0189)).toBe('position 3');
    expect(beside([...third(3), 5], 0.0188)).toBeUndefined();
  });

  it('is not told of half of them', () => {
    expect(beside([...third(4), ...ELSEWHERE.slice(0, 3)])).toBe('position 3');
    expect(beside([...third(4), ...ELSEWHERE])).toBeUndefined();
  });

  it('is told from three notes on', () => {
    expect(beside(third(2), 1)).toBeUndefined();
    expect(beside(third(3), 1)).toBe('position 3');
  });

  it('counts the notes that they are beside, and not how many are beside one', () => {
    expect(beside([...third(2), ...third(2), ...third(2), 5])).toBeUndefined();
    expect(beside([...third(3), 5, 5])).toBe('position 3');
    expect(beside([...third(3), 5, 5, 5])).toBeUndefined();
  });

  it('is a place without a limb where two strike at once, and may be a partial of the beat', () => {
    const first = [16, 32, 48, 64, 80];
    expect(beside(first)).toBe('position 1');
    const lasts = [3, 7, 27, 47, 51, 71, 91, 111, 127];
    expect(beside(lasts)).toBe('last sixteenths');
  });

  it('is nothing for strokes before the first note', () => {
    expect(besideOf(evidenceIn(judged(dues, strokes)), after(-9, -8, -7))).toBeUndefined();
  });
});
