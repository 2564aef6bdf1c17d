import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lateTogether, medianLate } from '../../src/capture/rig-delay';

const pattern = (subdivision: number, cyclePartials: number, partials: readonly number[]) => ({
  subdivision,
  cyclePartials,
  notes: partials.map((partial) => ({ partial })),
});

describe('all strokes late together', () => {
  it('a twelfth of a beat behind every sixteenth: sixteenths, late', () => {
    expect(lateTogether(pattern(12, 21, [1, 4, 7, 10, 13, 16, 19]), 90)).toEqual({
      beats: 1 / 12,
      subdivision: 4,
    });
    expect(lateTogether(pattern(12, 21, [2, 5, 11, 20]), 90)!.beats).toBeCloseTo(-1 / 12);
  });

  it('as soon as one stroke falls on the coarser grid, the fine one was meant', () => {
    expect(lateTogether(pattern(12, 21, [1, 4, 7, 12]), 90)).toBeUndefined();
    expect(lateTogether(pattern(8, 16, [0, 3, 6, 10]), 90)).toBeUndefined();
  });

  it('off-beats are off-beats, and a cycle that turns the grid round is no delay', () => {
    expect(lateTogether(pattern(2, 4, [1, 3]), 90)).toBeUndefined();
    expect(lateTogether(pattern(4, 8, [1, 3, 5, 7]), 200)).toBeUndefined();
    expect(lateTogether(pattern(8, 7, [1, 3, 5]), 90)).toBeUndefined();
  });

  it('what is farther off than a rig is late was meant', () => {
    // An eighth of a beat at 40 is 187 ms.
    expect(lateTogether(pattern(8, 8, [1, 3, 5, 7]), 40)).toBeUndefined();
  });

  it('lawMedian: a delay in common is found again, whatever the strokes', () => {
    const cases = fc.tuple(
      fc.array(fc.nat(200), { minLength: 8, maxLength: 40 }),
      fc.double({ min: 0.06, max: 0.11, noNaN: true }),
    );
    fc.assert(
      fc.property(cases, ([sixteenths, late]) => {
        const beats = sixteenths.map((place) => place / 4 + late);
        expect(medianLate(beats, { beats: 1 / 12, subdivision: 4 })).toBeCloseTo(late, 9);
      }),
    );
  });
});
