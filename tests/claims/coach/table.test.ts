import { describe, expect, it } from 'vitest';
import { aimOf, hardToTell } from './coach-claims';
import { seenAtBest } from './at-best';
import { holds } from './coach-table';
import { CLEAN, FAULTS } from './faults';
import { slopeOf } from './human-drift';

const fault = (name: string) => FAULTS.find((one) => one.name.startsWith(name))!;
const counted = (namedFirst: number, otherwise: number) => ({
  takes: 800,
  named: 800,
  namedFirst,
  otherwise,
  others: new Map(),
  byVariant: [],
});

describe('the aims', () => {
  it('are those of issue 11', () => {
    const white = (sdMs: number) => ({ noise: 'white', sdMs }) as const;
    const shared = { noise: 'AR(1) 0.7 shared', sdMs: 8 } as const;
    expect(aimOf(fault('limb'), white(8))).toEqual({ first: 0.97, others: 0.05 });
    expect(aimOf(fault('limb'), shared)).toEqual({ first: 0.97, others: 0.05 });
    expect(aimOf(fault('limb'), white(12))).toEqual({ first: 0.92, others: 0.08 });
    expect(aimOf(fault('bounces'), white(8))).toEqual({ first: 0.95, others: 0.05 });
    expect(aimOf(fault('spread'), white(8))).toEqual({ first: 0.95, others: 0.05 });
    expect(aimOf(fault('spread'), shared)).toBeUndefined();
    for (const clean of CLEAN) {
      expect(aimOf(clean, white(12))).toEqual({ others: 0.02 });
      expect(aimOf(clean, shared)).toEqual({ others: 0.03 });
    }
  });

  it('hold at the edge and not beyond it', () => {
    const aim = { first: 0.97, others: 0.05 };
    expect(holds(aim, counted(776, 40))).toBe(true);
    expect(holds(aim, counted(775, 40))).toBe(false);
    expect(holds(aim, counted(776, 41))).toBe(false);
    expect(holds({ others: 0.02 }, counted(0, 16))).toBe(true);
    expect(holds({ others: 0.02 }, counted(0, 17))).toBe(false);
  });
});

it('causes that are hard to tell apart stand with the phrase', () => {
  expect(hardToTell(fault('own notes'))[0]).toBe(
    'Gulls at Noon, own notes as layer 1 has them: voice high tom (2 notes of 6)',
  );
});

it('the slope of the bar medians is that of least squares: data of Sen 1968 [F], slope and error [C]', () => {
  const y = [9, 15, 19, 20, 45, 55, 78];
  const points = [1, 2, 3, 4, 10, 12, 18].map((bar, i) => ({ bar, ms: y[i]! }));
  const { slopeMsABar, p } = slopeOf(points);
  expect(slopeMsABar).toBeCloseTo(4.021352, 6);
  // scipy.stats.linregress [C].
  expect(p / 8.076450923091564e-8).toBeCloseTo(1, 6);
});

describe('what can be seen at best', () => {
  let seed = 1;
  const white = { noise: 'white', sdMs: 12 } as const;

  it('is what the difference of two means of 96 notes each shows', () => {
    const [right] = fault('limb').variants;
    // √(12²/96 + 12²/96) = 1.73 ms: 6.9 errors, 3.4 above 3.481. Of a quarter of the fault 1.73, so 1.75 below.
    const seen = (shiftMs: number) =>
      seenAtBest({ name: '', variants: [{ ...right!, shiftMs }] }, white, () => seed++)!;
    expect(seen(12)).toBeGreaterThan(0.99);
    expect(seen(3)).toBeGreaterThan(0.02);
    expect(seen(3)).toBeLessThan(0.07);
  });

  it('is not told of what is no shift', () => {
    expect(seenAtBest(fault('own notes'), white, () => seed++)).toBeUndefined();
  });
});
