import { describe, expect, it } from 'vitest';
import { expand } from '../../src/phrase/layers/expand';
import { realignment } from '../../src/phrase/layers/realignment';
import { mixedNumber } from '../../src/time/beats';
import { phraseOf } from '../phrase/phrase-of';

/** A linear grouping of n strokes, right hand first so that its start can be told. */
const linear = (n: number) => ['R', ...Array.from({ length: n - 1 }, () => 'L')].join(' ');

/** The start of each group, partials from its bar line, by bar. */
function startsByBar(n: number, meter: string, subdivision: number, bars: number): number[][] {
  const phrase = phraseOf({ meter, subdivision, grouping: linear(n) });
  const byBar: number[][] = Array.from({ length: bars }, () => []);
  for (const note of expand(phrase, 1, { bars }))
    if (note.position === 1) byBar[note.bar - 1]!.push(note.beat.sub(1).mul(subdivision).valueOf());
  return byBar;
}

// Group of n partials over a bar of b: they coincide after lcm(n, b) partials. The whole table worked
// out from the elementary number theory of the least common multiple, apart from this program.
describe('realignment of a group over a bar: partials, bars, repetitions', () => {
  const BARS = [
    ['3/4', 4],
    ['7/8', 2],
    ['4/4', 4],
    ['5/4', 4],
    ['4/4', 6],
  ] as const;
  it.each([
    [3, ['12 1 4', '42 3 14', '48 3 16', '60 3 20', '24 1 8']],
    [5, ['60 5 12', '70 5 14', '80 5 16', '20 1 4', '120 5 24']],
    [6, ['12 1 2', '42 3 7', '48 3 8', '60 3 10', '24 1 4']],
    [7, ['84 7 12', '14 1 2', '112 7 16', '140 7 20', '168 7 24']],
    [9, ['36 3 4', '126 9 14', '144 9 16', '180 9 20', '72 3 8']],
    [11, ['132 11 12', '154 11 14', '176 11 16', '220 11 20', '264 11 24']],
  ])('group of %i over 12, 14, 16, 20, 24', (n, expected) => {
    const found = BARS.map(([meter, subdivision]) => {
      const { cycles, bars } = realignment(
        phraseOf({ meter, subdivision, grouping: linear(n) }),
        1,
      );
      return `${cycles * n} ${bars} ${cycles}`;
    });
    expect(found).toEqual(expected);
  });

  it('quintuplets in 4/4 have the 20 partials of sixteenths in 5/4', () => {
    const quintuplets = phraseOf({ meter: '4/4', subdivision: 5, grouping: linear(3) });
    expect(realignment(quintuplets, 1)).toMatchObject({ cycles: 20, bars: 3 });
  });

  it('groups of 5 over 16 start at 0 5 10 15 | 4 9 14 | 3 8 13 | 2 7 12 | 1 6 11 | 0', () => {
    expect(startsByBar(5, '4/4', 4, 6)).toEqual([
      [0, 5, 10, 15],
      [4, 9, 14],
      [3, 8, 13],
      [2, 7, 12],
      [1, 6, 11],
      [0, 5, 10, 15],
    ]);
  });

  it.each([
    [5, '4/4', 4, [0, 1, 2, 3, 4, 0]],
    [7, '4/4', 4, [0, 2, 4, 6, 1, 3, 5, 0]],
    [3, '4/4', 4, [0, 1, 2, 0]],
    [5, '3/4', 4, [0, 2, 4, 1, 3, 0]],
  ])('group of %i in %s: the partial of the group that each bar starts on', (n, meter, sub, of) => {
    const phrase = phraseOf({ meter, subdivision: sub, grouping: linear(n) });
    const downbeats = expand(phrase, 1, { bars: of.length }).filter((note) => note.beat.equals(1));
    expect(downbeats.map((note) => note.position - 1)).toEqual(of);
  });

  it.each([
    ['5 over 16', 5, '4/4', 4, 80],
    ['5 over 20', 5, '5/4', 4, 20],
    ['3 over 12', 3, '3/4', 4, 12],
    ['5 over 15', 5, '5/4', 3, 30],
  ])('hand to hand over an odd group, %s: hands and bar agree again after lcm(2n, b)', (...row) => {
    const [, n, meter, subdivision, partials] = row;
    const alternating = Array.from({ length: 2 * n }, (_, i) => (i % 2 === 0 ? 'R' : 'L')).join(
      ' ',
    );
    const phrase = phraseOf({ meter, subdivision, grouping: alternating });
    expect(realignment(phrase, 1).cycles * 2 * n).toBe(partials);
  });

  it('a group cut at the bar line starts over there: 5+5+5+1', () => {
    const phrase = phraseOf({ grouping: linear(5), cycle: 16 });
    expect(realignment(phrase, 1)).toMatchObject({ cycles: 1, bars: 1 });
    const starts = expand(phrase, 1, { bars: 2 }).filter((note) => note.limb === 'R');
    expect(starts.map((note) => note.onset.mul(4).valueOf())).toEqual([
      0, 5, 10, 15, 16, 21, 26, 31,
    ]);
  });
});

describe('where each cycle starts', () => {
  const starts = (file: Parameters<typeof phraseOf>[0], layer = 1) =>
    realignment(phraseOf(file), layer).starts.map(({ bar, beat }) => `${bar}:${mixedNumber(beat)}`);

  // A cycle of five beats in 4/4 begins a beat later each time: arithmetic on fingers.
  it('a cycle of 20 sixteenths in 4/4 walks through the beats', () => {
    expect(starts({ grouping: linear(5), cycle: 20 })).toEqual(['1:1', '2:2', '3:3', '4:4']);
  });

  it('a displaced cycle starts where it was moved to, ahead of bar 1 in bar 0', () => {
    const layers = (displace: number) => [{ name: 'a', changes: [{ displace }] }];
    const file = { grouping: linear(6), subdivision: 2 };
    expect(starts({ ...file, layers: layers(3) })).toEqual([
      '1:2 1/2',
      '2:1 1/2',
      '2:4 1/2',
      '3:3 1/2',
    ]);
    expect(starts({ ...file, layers: layers(-1) })[0]).toBe('0:4 1/2');
  });
});
