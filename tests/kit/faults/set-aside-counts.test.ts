import { describe, expect, it } from 'vitest';
import { EDGE_AND_RIM } from '../../../src/kit/built-in-kits';
import { createSetAsideCounts } from '../../../src/kit/faults/set-aside-counts';
import { KitDecoder } from '../../../src/kit/kit-decoder';

/** Strokes on the snare half a second apart, the first few answered as the fault asks. */
function reportOf(answers: number, afterMs: number, note: number, velocity: number) {
  const decoder = new KitDecoder(EDGE_AND_RIM);
  const counts = createSetAsideCounts(EDGE_AND_RIM);
  const add = (timeUs: number, pad: number, loud: number) =>
    counts.add(decoder.read(timeUs, 0x99, pad, loud));
  for (let i = 0; i < 5; i++) {
    add(i * 500_000, 38, 110);
    if (i < answers) add(i * 500_000 + afterMs * 1000, note, velocity);
  }
  return counts.report(String).map(({ fault, count }) => [fault, count]);
}

describe('strokes set aside, counted', () => {
  it.each([
    ['three double triggers', reportOf(3, 10, 38, 40), [['double triggers', 3]]],
    ['two', reportOf(2, 10, 38, 40), []],
    ['three faint answers', reportOf(3, 3, 48, 9), [['crosstalk', 3]]],
    ['two', reportOf(2, 3, 48, 9), []],
  ])('%s are told or not', (_, told, expected) => {
    expect(told).toEqual(expected);
  });
});
