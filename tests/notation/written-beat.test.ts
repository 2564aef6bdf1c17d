import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { writtenBeat, type WrittenBeat } from '../../src/notation/written-beat';
import { runCount } from '../run-count';

const SIMPLE = { unit: 4, compound: false } as const;
const COMPOUND = { unit: 8, compound: true } as const;

const NAMES = ['4', '8', '16', '32'];
/** Values as text: "8." a dotted eighth, "r16" a rest, "3:2[8 r8 8]" a tuplet. */
function text({ values, tuplet }: WrittenBeat): string {
  const line = values
    .map(({ isRest, flags, dotted }) => `${isRest ? 'r' : ''}${NAMES[flags]}${dotted ? '.' : ''}`)
    .join(' ');
  return tuplet ? `${tuplet.number}:${tuplet.inTimeOf}[${line}]` : line;
}

describe('a beat as it is written', () => {
  it.each([
    ['sixteenths', SIMPLE, 4, [0, 1, 2, 3], '16 16 16 16'],
    ['a dotted eighth', SIMPLE, 4, [0, 3], '8. 16'],
    ['silence', SIMPLE, 4, [], 'r4'],
    ['a triplet', SIMPLE, 3, [0, 1, 2], '3:2[8 8 8]'],
    ['a triplet that begins with a rest', SIMPLE, 3, [1, 2], '3:2[r8 8 8]'],
    ['one note in a triplet grid', SIMPLE, 3, [0], '4'],
    ['halves of a sextuplet', SIMPLE, 6, [0, 3], '8 8'],
    ['thirds of a sextuplet', SIMPLE, 6, [0, 2, 4], '3:2[8 8 8]'],
    ['a sextuplet', SIMPLE, 6, [0, 1, 3], '6:4[16 8 8.]'],
    ['quarters of twelve parts', SIMPLE, 12, [0, 3, 6, 9], '16 16 16 16'],
    ['a quintuplet', SIMPLE, 5, [1, 2, 3, 4], '5:4[r16 16 16 16 16]'],
    ['eighths of a dotted beat', COMPOUND, 3, [0, 1, 2], '8 8 8'],
    ['a dotted beat in two halves, which sixteenths can write', COMPOUND, 6, [0, 3], '8. 8.'],
    ['a duplet in a dotted beat', COMPOUND, 2, [0, 1], '2:3[8 8]'],
    ['four in a dotted beat', COMPOUND, 4, [0, 1, 2, 3], '4:3[8 8 8 8]'],
  ])('%s', (_, meter, subdivision, onsets, expected) => {
    expect(text(writtenBeat(meter, subdivision, onsets, 0, subdivision))).toBe(expected);
  });

  it('lawNothingLost: values follow each other over all of it, and notes start at the onsets alone', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(SIMPLE, COMPOUND),
        fc
          .integer({ min: 1, max: 12 })
          .chain((subdivision) =>
            fc.tuple(fc.constant(subdivision), fc.subarray(range(subdivision))),
          ),
        (meter, [subdivision, onsets]) => {
          const { values } = writtenBeat(meter, subdivision, onsets, 0, subdivision);
          let at = 0;
          for (const value of values) {
            expect(value.from).toBe(at);
            at += value.partials;
          }
          expect(at).toBe(subdivision);
          expect(values.filter(({ isRest }) => !isRest).map(({ from }) => from)).toEqual(onsets);
        },
      ),
      { numRuns: runCount(300) },
    );
  });

  it('lawValuesSum: what is written, tuplets by their ratio, is as long as the beat', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(SIMPLE, COMPOUND),
        fc
          .integer({ min: 1, max: 12 })
          .chain((subdivision) =>
            fc.tuple(fc.constant(subdivision), fc.subarray(range(subdivision))),
          ),
        (meter, [subdivision, onsets]) => {
          const { values, tuplet } = writtenBeat(meter, subdivision, onsets, 0, subdivision);
          const written = values.reduce(
            (sum, { flags, dotted }) => sum + (dotted ? 1.5 : 1) / 2 ** flags,
            0,
          );
          const beat = meter.compound ? 1.5 : 1;
          const sounding = tuplet ? (written * tuplet.inTimeOf) / tuplet.number : written;
          expect(sounding).toBeCloseTo(beat, 10);
        },
      ),
      { numRuns: runCount(300) },
    );
  });
});

const range = (count: number) => Array.from({ length: count }, (_, i) => i);
