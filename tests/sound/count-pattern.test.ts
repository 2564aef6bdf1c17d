import { describe, expect, it } from 'vitest';
import { countPattern, type CycleToCount, type SyllableMark } from '../../src/sound/count-pattern';

/** A bar of 4/4 in sixteenths. */
const SYLLABLES = ['1', 'e', '&', 'a', '2', 'e', '&', 'a', '3', 'e', '&', 'a', '4', 'e', '&', 'a'];
const marks = (partialUs: number, fromUs = 0): SyllableMark[] =>
  SYLLABLES.map((label, i) => ({
    timeUs: fromUs + i * partialUs,
    kind: i === 0 ? 'bar' : i % 4 === 0 ? 'beat' : 'partial',
    label,
  }));
const words = (
  follows: 'off' | 'meter' | 'cycle',
  syllables: boolean,
  list: readonly SyllableMark[],
  cycles: readonly CycleToCount[] = [],
) => countPattern({ follows, syllables }, list, cycles).map(({ word }) => word);
const cycle = (partials: number, partialUs: number, startUs = 0): CycleToCount => ({
  startUs,
  endUs: startUs + partials * partialUs,
  partialUs,
  subdivision: 4,
});

describe('a spoken count', () => {
  it('is silent where it is off', () => {
    expect(words('off', true, marks(200_000), [cycle(5, 300_000)])).toEqual([]);
  });

  it('counts beats, and what lies between where it is asked for', () => {
    expect(words('meter', false, marks(200_000))).toEqual(['1', '2', '3', '4']);
    expect(words('meter', true, marks(200_000))).toEqual(SYLLABLES);
  });

  it('counts the beats where the player is brought back, as in the count-in, also in the cycle', () => {
    const counted = marks(200_000, 8_000_000).map((mark) => ({ ...mark, isCountIn: true }));
    expect(words('cycle', false, counted)).toEqual(['1', '2', '3', '4']);
    expect(words('cycle', false, marks(200_000, 8_000_000))).toEqual([]);
  });

  it.each([
    [140_000, 16],
    [139_999, 4],
  ])('partials of %d µs leave %d words', (partialUs, count) => {
    expect(words('meter', true, marks(partialUs))).toHaveLength(count);
  });

  it.each([
    // Partial by partial down to 240 ms, beat by beat of four partials below.
    [5, 240_000, ['1', '2', '3', '4', '5']],
    [5, 239_999, ['1', '2']],
    // The next cycle's "1" is a partial after "2".
    [9, 140_000, ['1', '2', '3', '1']],
    [9, 139_999, ['1', '2', '1']],
    [20, 150_000, ['1', '2', '3', '4', '5']],
    [12, 300_000, ['1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '11', '12']],
    [13, 300_000, ['1', '2', '3', '4']],
  ])('a cycle of %d partials of %d µs', (partials, partialUs, expected) => {
    const first = cycle(partials, partialUs);
    const next = cycle(1, partialUs, partials * partialUs);
    const isTold = partials === 9;
    expect(words('cycle', false, [], isTold ? [first, next] : [first])).toEqual(expected);
  });

  it.each([
    // Beats in full down to 300 ms, short below; quicker than 140 ms the first beat of the bar alone.
    [300_000, '1 2 3 4 1 2 3 4'],
    [299_999, '1. 2. 3. 4. 1. 2. 3. 4.'],
    [140_000, '1. 2. 3. 4. 1. 2. 3. 4.'],
    [139_999, '1 1'],
  ])('beats of %d µs', (beatUs, expected) => {
    const beats = Array.from({ length: 8 }, (_, i) => ({
      timeUs: i * beatUs,
      kind: i % 4 === 0 ? ('bar' as const) : ('beat' as const),
      label: String((i % 4) + 1),
    }));
    const found = countPattern({ follows: 'meter', syllables: true }, beats, []);
    const drawn = found.map(({ word, isShort }) => `${word}${isShort ? '.' : ''}`);
    expect(drawn.join(' ')).toBe(expected);
  });

  it('counts in by the meter, and from there on in the cycle', () => {
    const list = [...marks(150_000, -2_400_000), ...marks(150_000)];
    const found = countPattern({ follows: 'cycle', syllables: false }, list, [cycle(8, 150_000)]);
    expect(found.map(({ word, timeUs }) => `${word} ${timeUs}`)).toEqual([
      '1 -2400000',
      '2 -1800000',
      '3 -1200000',
      '4 -600000',
      '1 0',
      '2 600000',
    ]);
  });

  it('leaves out what there is no word for', () => {
    const list: SyllableMark[] = [{ timeUs: 0, kind: 'beat', label: '13' }];
    expect(words('meter', true, list)).toEqual([]);
  });
});
