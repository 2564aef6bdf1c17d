import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  canAnswer,
  noteRank,
  saving,
  strokeRank,
  tieBreakers,
  WEIGHT_WIDTH,
  wholeUnit,
} from '../../src/match/pair-weight';
import { VOICES } from '../../src/phrase/model/voice';

describe('places among what is simultaneous', () => {
  it('go from the top of the staff, and of one voice from the loudest stroke', () => {
    const strokes = [strokeRank(0, 127), strokeRank(0, 1), strokeRank(1, 127), strokeRank(25, 1)];
    expect(strokes).toEqual([0, 126, 128, 3326]);
  });

  it('have room for every voice in the five bits that stand for it', () => {
    expect(VOICES.length).toBeLessThanOrEqual(2 ** 5);
  });

  it('tell four notes of one voice apart and no more', () => {
    expect([0, 1, 2, 3, 4, 9].map((alike) => noteRank(2, alike))).toEqual([8, 9, 10, 11, 11, 11]);
    expect(noteRank(3, 0)).toBe(12);
  });
});

describe('a pair', () => {
  it.each([
    [-100, true, true],
    [100, true, true],
    [-101, true, false],
    [101, true, false],
    [-50, false, true],
    [50, false, true],
    [-51, false, false],
    [51, false, false],
  ])('%i of 100 apart, of one voice: %s, may be made: %s', (offset, same, may) => {
    expect(canAnswer(offset, same, 100)).toBe(may);
  });

  // Missed and extra cost 1 each; a pair 2·|offset|/reach, and 1 more if the voices differ. In hundredths:
  it.each([
    [0, true, 100, 200],
    [100, true, 100, 0],
    [-100, true, 100, 0],
    [10, true, 100, 180],
    [0, false, 100, 100],
    [-10, false, 100, 80],
    [50, false, 100, 0],
    [10, true, 50, 160],
    [-10, true, 30, 400 / 3],
    [10, true, 70, 1200 / 7],
  ])('%i apart, of one voice: %s, reach %i, saves %d', (offset, same, reach, saved) => {
    expect(saving(offset, same, reach, 2100) / 21).toBeCloseTo(saved, 9);
  });

  it.each([
    ['the same', 100_000, 100_000, 100_000],
    ['a part of it', 100_000, 50_000, 100_000],
    ['one that it is a part of', 50_000, 100_000, 100_000],
    ['any other', 499_999, 500_000, 499_999 * 500_000],
    ['beyond what one can be large enough for', 2 ** 30, 499_999, 2 ** 38],
    ['beyond that, of a unit that is no power of 2', 3 * 2 ** 30, 499_999, 3 * 2 ** 36],
  ])('a unit for a reach that is %s', (_, unit, reach, whole) => {
    expect(wholeUnit(unit, reach)).toBe(whole);
  });

  it('lawWholeUnit: any two reaches divide it, and further ones are rounded by millionths of a miss', () => {
    const reach = fc.integer({ min: 1, max: 500_000 });
    fc.assert(
      fc.property(reach, reach, fc.array(reach), (one, other, more) => {
        const both = wholeUnit(one, other);
        expect([both % one, both % other]).toEqual([0, 0]);
        const last = more.reduce(wholeUnit, both);
        expect(last % both).toBe(0);
        expect(last).toBeLessThanOrEqual(2 ** 38);
        for (const each of more) {
          const edge = saving(each, true, each, more.reduce(wholeUnit, wholeUnit(both, each)));
          expect(edge).toBeGreaterThanOrEqual(0);
          expect(edge).toBeLessThan(last % each === 0 ? 1 : last * 4e-6);
        }
      }),
    );
  });

  it('lawTiesHold: offsets of one sum save the same together, whatever reach is the unit', () => {
    const reach = fc.integer({ min: 1, max: 500_000 });
    fc.assert(
      fc.property(
        reach,
        reach,
        fc.array(fc.nat(500_000), { minLength: 3, maxLength: 3 }),
        (own, unit, [a, b, by]) => {
          const near = (offset: number) => saving(Math.min(offset, own), true, own, unit);
          const low = Math.min(a!, own);
          const high = Math.min(b!, own);
          const moved = Math.min(by!, low, own - high);
          expect(near(low - moved) + near(high + moved)).toBe(near(low) + near(high));
        },
      ),
    );
  });

  it('saves nothing below 0 at the edge of its window', () => {
    const reach = fc.integer({ min: 1, max: 250_000 });
    fc.assert(
      fc.property(reach, fc.integer({ min: 1, max: 500_000 }), (half, unit) => {
        expect(saving(2 * half, true, 2 * half, unit)).toBeGreaterThanOrEqual(0);
        expect(saving(half, false, 2 * half, unit)).toBeGreaterThanOrEqual(0);
      }),
    );
  });
});

const row = (offset: number, same: boolean, note: number, stroke: number) => {
  const out = new Float64Array(WEIGHT_WIDTH);
  tieBreakers(out, offset, same, note, stroke);
  return out;
};

describe('what tells pairs apart that cost the same', () => {
  it('a right voice before any number of wrong ones', () => {
    const right = row(0, true, 0, 0)[1]!;
    const wrong = row(0, false, 0, 0)[1]!;
    expect(wrong).toBeGreaterThan(0);
    expect(right).toBeGreaterThan(100_000 * wrong);
    expect(right).toBeGreaterThan(right - wrong);
  });

  it('the nearer, early or late', () => {
    expect(row(3, true, 0, 0)[2]).toBe(-9);
    expect(row(-3, true, 0, 0)[2]).toBe(-9);
  });

  it('the earlier stroke; of simultaneous ones the lower place', () => {
    const places = [
      row(-1, true, 9, 3326),
      row(0, true, 5, 0),
      row(0, true, 5, 1),
      row(1, true, 0, 0),
    ];
    const entries = places.map((one) => one[4]!);
    expect(entries).toEqual([...entries].sort((a, b) => b - a));
    expect(new Set(entries).size).toBe(4);
  });

  // The rearrangement inequality: a sum of products is greatest where both sides are in the same order.
  it('lawSameOrder: where squares tie, the products of the places in time and on the staff decide', () => {
    const time = fc.integer({ min: -3, max: 3 });
    const notePlace = fc.record({ us: time, rank: fc.integer({ min: 0, max: 103 }) });
    const strokePlace = fc.record({ us: time, rank: fc.integer({ min: 0, max: 3326 }) });
    fc.assert(
      fc.property(notePlace, notePlace, strokePlace, strokePlace, (a, b, c, d) => {
        const pair = (note: typeof a, stroke: typeof c) =>
          row(stroke.us - note.us, true, note.rank, stroke.rank);
        const straight = [pair(a, c), pair(b, d)];
        const crossed = [pair(a, d), pair(b, c)];
        const sum = (rows: readonly Float64Array[], entry: number) =>
          rows.reduce((total, one) => total + one[entry]!, 0);
        fc.pre(sum(straight, 2) === sum(crossed, 2));
        const product = (note: typeof a, stroke: typeof c) =>
          (note.us * 128 + note.rank) * (stroke.us * 4096 + stroke.rank);
        const gained = product(a, c) + product(b, d) - product(a, d) - product(b, c);
        expect(sum(straight, 5) - sum(crossed, 5)).toBe(gained);
      }),
    );
  });
});
