import { expect, it } from 'vitest';
import { syllable } from '../../../src/phrase/model/syllable';
import { parseMeter } from '../../../src/time/meter';

// How bars are counted aloud: common practice, no source.
it.each([
  ['4/4', 1, '1 2 3 4'],
  ['4/4', 2, '1 & 2 & 3 & 4 &'],
  ['3/4', 3, '1 trip let 2 trip let 3 trip let'],
  ['2/4', 4, '1 e & a 2 e & a'],
  ['2/4', 5, '1 2 3 4 5 2 2 3 4 5'],
  ['6/8', 3, '1 & a 2 & a'],
  ['7/8', 1, '1 2 3 4 5 6 7'],
  ['5/8', 2, '1 & 2 & 3 & 4 & 5 &'],
])('a bar of %s with %i partials a beat is counted %j', (text, subdivision, counted) => {
  const meter = parseMeter(text)!;
  const bar = Array.from({ length: meter.beatsPerBar * subdivision }, (_, i) => i);
  const inBar = (bars: number) =>
    bar.map((partial) => syllable(meter, subdivision, partial + bars * bar.length)).join(' ');
  expect(inBar(0)).toBe(counted);
  expect(inBar(-1)).toBe(counted);
  expect(inBar(3)).toBe(counted);
});
