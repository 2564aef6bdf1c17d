import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beamGroup } from '../../src/notation/beams';
import { partialValue, writtenValues } from '../../src/notation/written-values';
import { parseMeter } from '../../src/time/meter';

const NAMES: Readonly<Record<string, string>> = {
  '-1': 'half',
  0: 'quarter',
  1: '8th',
  2: '16th',
  3: '32nd',
};
const meterOf = (text: string) => parseMeter(text)!;
/** A beat as it is written: values, with a dot where dotted and brackets round rests. */
const written = (
  meter: string,
  subdivision: number,
  onsets: number[],
  from = 0,
  to = subdivision,
) =>
  writtenValues(meterOf(meter), subdivision, onsets, from, to)
    .map(({ flags, dotted, isRest }) => {
      const name = `${NAMES[flags]}${dotted ? '.' : ''}`;
      return isRest ? `(${name})` : name;
    })
    .join(' ');

describe('partials as note values', () => {
  // n in the time of m, MusicXML 4.0's actual-notes and normal-notes (w3.org/2021/06/musicxml40, time-modification), with
  // m the nearest lower power of two (common practice, no source): 3:2, 5:4, 6:4, 7:4, 9:8, 11:8. The values are
  // computed: a quarter is m = 2 eighths, 4 sixteenths, 8 thirty-seconds.
  it.each([
    [3, '8th'],
    [5, '16th'],
    [6, '16th'],
    [7, '16th'],
    [9, '32nd'],
    [11, '32nd'],
  ])('%i to a quarter are a tuplet of %ss', (subdivision, name) => {
    const { flags, tuplet } = partialValue(meterOf('4/4'), subdivision);
    expect([NAMES[flags], tuplet]).toEqual([name, subdivision]);
  });

  it.each([
    ['4/4', 1, 'quarter'],
    ['4/4', 2, '8th'],
    ['4/4', 4, '16th'],
    ['4/4', 8, '32nd'],
    ['7/8', 1, '8th'],
    ['7/8', 2, '16th'],
    ['6/8', 3, '8th'],
    ['6/8', 6, '16th'],
    ['12/8', 12, '32nd'],
  ])('in %s %i to the beat are plain %ss', (meter, subdivision, name) => {
    const { flags, tuplet } = partialValue(meterOf(meter), subdivision);
    expect([NAMES[flags], tuplet]).toEqual([name, undefined]);
  });

  // Read off by hand.
  it.each([
    ['4/4', 4, [0, 1, 2, 3], '16th 16th 16th 16th'],
    ['4/4', 4, [0, 2], '8th 8th'],
    ['4/4', 4, [0, 3], '8th. 16th'],
    ['4/4', 4, [1], '(16th) 8th.'],
    ['4/4', 4, [3], '(16th) (8th) 16th'],
    ['4/4', 4, [0], 'quarter'],
    ['4/4', 4, [], '(quarter)'],
    ['4/4', 3, [0, 2], 'quarter 8th'],
    ['4/4', 3, [0], 'quarter'],
    ['4/4', 5, [0], 'quarter'],
    ['4/4', 7, [0, 5], 'quarter (16th) 8th'],
    ['6/8', 3, [0], 'quarter.'],
    ['6/8', 6, [0, 3, 5], '8th. 8th 16th'],
    ['6/8', 3, [], '(quarter.)'],
  ])('in %s, %i to the beat, struck at %j: %s', (meter, subdivision, onsets, expected) => {
    expect(written(meter, subdivision, onsets)).toBe(expected);
  });

  it('part of a beat is written as far as it goes', () => {
    expect(written('4/4', 4, [0, 1], 0, 3)).toBe('16th 8th');
    expect(written('4/4', 4, [], 2, 4)).toBe('(8th)');
  });

  it('lawFillsTheBeat: the values take up the beat without gap or overlap, one note at each stroke', () => {
    const cases = fc
      .integer({ min: 1, max: 12 })
      .chain((n) => fc.tuple(fc.constant(n), fc.subarray([...Array(n).keys()])));
    fc.assert(
      fc.property(cases, fc.constantFrom('4/4', '7/8', '6/8'), ([n, onsets], meter) => {
        const values = writtenValues(meterOf(meter), n, onsets, 0, n);
        let at = 0;
        for (const { from, partials } of values) {
          expect(from).toBe(at);
          at += partials;
        }
        expect(at).toBe(n);
        expect(values.filter(({ isRest }) => !isRest).map(({ from }) => from)).toEqual(onsets);
        for (const { flags } of values) expect(Number.isInteger(flags)).toBe(true);
      }),
    );
  });
});

describe('beams', () => {
  const beams = (subdivision: number, onsets: number[]) =>
    beamGroup(writtenValues(meterOf('4/4'), subdivision, onsets, 0, subdivision)).beams.map(
      ({ level, from, to, stub }) => `${level}: ${from}-${to}${stub ? ` ${stub}` : ''}`,
    );

  it.each([
    [4, [0, 1, 2, 3], ['1: 0-3', '2: 0-3']],
    [4, [0, 1, 3], ['1: 0-2', '2: 0-0 right', '2: 2-2 left']],
    [4, [0, 3], ['1: 0-1', '2: 1-1 left']],
    [4, [0], []],
    [3, [0, 1, 2], ['1: 0-2']],
    [3, [0, 2], []],
  ])('%i to the beat, struck at %j: %j', (subdivision, onsets, expected) => {
    expect(beams(subdivision, onsets)).toEqual(expected);
  });
});
