import { cumulativeStdNormalProbability, mean, probit } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { chance } from '../../../src/time/chance';
import { aimOf, hardToTell } from './coach-claims';
import { seenAtBest } from './at-best';
import { causesOf } from './causes';
import { holds } from './coach-table';
import { CLEAN, FAULTS } from './faults';
import { slopeOf } from './human-drift';
import { OTHER_CLAIMS } from './other-claims';
import { correlationOf, NOISES, scatterMs, type Noise } from './scatter';

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
  it('are these, scatter by scatter', () => {
    const white = (sdMs: number) => ({ noise: 'white', sdMs }) as const;
    const shared = { noise: 'AR(1) 0.7 shared', sdMs: 8 } as const;
    expect(aimOf(fault('limb'), white(8))).toEqual({ first: 0.97, others: 0.05 });
    expect(aimOf(fault('limb'), shared)).toEqual({ first: 0.97, others: 0.05 });
    expect(aimOf(fault('limb'), white(12))).toEqual({ first: 0.92, others: 0.08 });
    expect(aimOf(fault('bounces'), white(8))).toEqual({ first: 0.95, others: 0.05 });
    expect(aimOf(fault('spread'), white(8))).toEqual({ first: 0.95, others: 0.05 });
    expect(aimOf(fault('spread'), shared)).toBeUndefined();
    const isApart = ({ name }: { name: string }) => name.startsWith('limbs 8 ms apart');
    const [apart] = CLEAN.filter(isApart);
    expect(aimOf(apart!, shared)).toEqual({ others: 0.05 });
    expect(aimOf(apart!, white(12))).toEqual({ others: 0.08 });
    for (const clean of CLEAN.filter((one) => !isApart(one))) {
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
  const [alternating] = fault('limb').variants;
  const seen = (noise: Noise, shiftMs: number) =>
    seenAtBest({ name: '', variants: [{ ...alternating!, shiftMs }] }, { noise, sdMs: 12 })!;
  const { piece, bars } = alternating!;
  // √(12²/96 + 12²/96) = √3 ms: of a fault of 3√3 ms three errors.
  const threeErrors = seen('white', 3 * Math.sqrt(3));

  it('is what the difference of two means of 96 notes each shows, where only right and left are looked at', () => {
    const z = probit(1 - 0.02 / 2);
    expect(threeErrors.ofKind).toBeCloseTo(1 - cumulativeStdNormalProbability(z - 3), 1);
    expect(seen('white', 20).ofAll).toBeGreaterThan(0.998);
  });

  it('is more than Bonferroni leaves, and less than of one kind, where every cause is looked at', () => {
    const causes = causesOf(piece.notes(bars), piece.subdivision, piece.layer).size;
    const z = probit(1 - 0.02 / causes / 2);
    expect(threeErrors.ofAll).toBeGreaterThan(1 - cumulativeStdNormalProbability(z - 3));
    expect(threeErrors.ofAll).toBeLessThan(threeErrors.ofKind - 0.1);
  });

  it('is √3 times as clear of alternating strokes with AR(1) 0.5', () => {
    // Spectral density at half the rate of the strokes: (1 − r)/(1 + r) of white scatter's.
    for (const ms of [2, 3, 4])
      expect(seen('AR(1) 0.5', ms).ofKind).toBeCloseTo(seen('white', Math.sqrt(3) * ms).ofKind, 1);
  });

  it('is less than the aim for limbs with scatter of 12 ms that goes together by 0.7, whatever else is given up', () => {
    const scatter = { noise: 'AR(1) 0.7 shared', sdMs: 12 } as const;
    const { first } = aimOf(fault('limb'), scatter)!;
    expect(seenAtBest(fault('limb'), scatter)!.ofKind).toBeLessThan(first! - 0.03);
  });

  it('is not told of what is no shift', () => {
    expect(seenAtBest(fault('own notes'), { noise: 'white', sdMs: 12 })).toBeUndefined();
  });
});

it.each(NOISES)('offsets go together as they are said to: %s', (noise) => {
  const notes = fault('limb')
    .variants.find(({ piece }) => piece.plan.phrase.cycle === 16)!
    .piece.notes(1);
  const { normal } = chance(4);
  const takes = Array.from({ length: 4000 }, () => scatterMs(notes, noise, 1, normal));
  const correlation = correlationOf(notes, noise);
  for (let i = 0; i < notes.length; i += 3)
    for (let j = i; j < notes.length; j += 2)
      // Four standard errors.
      expect(
        Math.abs(mean(takes.map((one) => one[i]! * one[j]!)) - correlation(i, j)),
      ).toBeLessThan((4 * Math.SQRT2) / Math.sqrt(takes.length));
});

describe('the other claims', () => {
  it('have these aims, a share of takes by the noise', () => {
    const aims = OTHER_CLAIMS.map(({ most }) => NOISES.map((noise) => most({ noise, sdMs: 8 })));
    expect(aims).toEqual([
      [0.05, 0.05, 0.05],
      [undefined, undefined, undefined],
      [undefined, undefined, undefined],
      // While playing, as the figures change and as the line does; at a tempo.
      [0.02, 0.03, 0.03],
      [0.02, 0.03, 0.03],
      [0.02, 0.03, 0.03],
    ]);
  });

  it('an even player is said to be even, one with a limb far apart is not', () => {
    const [apart, even] = OTHER_CLAIMS;
    const steady = { noise: 'white', sdMs: 3 } as const;
    const said = (claim: typeof apart) =>
      Array.from({ length: 12 }, (_, take) => claim!.isSaid(take, steady, 700 + take)).filter(
        Boolean,
      ).length;
    expect(said(even)).toBe(12);
    expect(said(apart)).toBeLessThan(3);
  });
});
