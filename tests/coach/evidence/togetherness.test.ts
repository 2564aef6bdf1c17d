import { mean, sampleVariance } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { contrastOf } from '../../../src/coach/evidence/contrast';
import { contrastVariances, togethernessOf } from '../../../src/coach/evidence/togetherness';
import { unitsOf } from '../../../src/coach/evidence/units';
import { chance } from '../../../src/time/chance';
import { scatterMs, type Noise } from '../../claims/coach/scatter';
import { harbourNotes } from '../practice-take';

const notes = harbourNotes(16);
const { normal } = chance(20);
const scatter = (noise: Noise) => Float64Array.from(scatterMs(notes, noise, 8, normal));

describe('how strokes go together', () => {
  it.each([
    ['white', 0, 0],
    ['AR(1) 0.5', 1, 0.5],
    ['AR(1) 0.7 shared', 1 / 3, 0.7],
  ] as const)('%s is told', (noise, common, stays) => {
    const all = Array.from({ length: 60 }, () => togethernessOf(scatter(noise), notes));
    expect(Math.abs(mean(all.map((one) => one.stays)) - stays)).toBeLessThan(0.08);
    // What does not stay is in common or not all the same.
    if (stays > 0) expect(Math.abs(mean(all.map((one) => one.common)) - common)).toBeLessThan(0.2);
  });

  it('lawPlaces: what every note of a place has more changes nothing, nor does a note without a value', () => {
    const values = scatter('AR(1) 0.7 shared');
    const apart = values.map((ms, at) => ms + 3 * (notes[at]!.note.position % 5) - 7);
    expect(togethernessOf(apart, notes)).toEqual(togethernessOf(values, notes));
    const withGaps = values.map((ms, at) => (at % 40 === 7 ? NaN : ms));
    expect(togethernessOf(withGaps, notes).stays).toBeGreaterThan(0.3);
  });

  it('is nothing where nothing scatters, or nothing was played', () => {
    const none = { common: 0, stays: 0 };
    expect(togethernessOf(new Float64Array(notes.length), notes)).toEqual(none);
    expect(togethernessOf(new Float64Array(notes.length).fill(NaN), notes)).toEqual(none);
    expect(togethernessOf(new Float64Array(0), [])).toEqual(none);
  });
});

describe('the variance of a contrast', () => {
  const units = unitsOf(notes);
  const sidesOf = (limb: string) => {
    const places = [...notes.keys()];
    const isOwn = (at: number) => notes[at]!.note.limb === limb;
    return [places.filter(isOwn), places.filter((at) => !isOwn(at))] as const;
  };

  it('is that of two independent means where nothing goes together', () => {
    const values = new Float64Array(notes.length);
    const [own, others] = sidesOf('L');
    const variance = contrastVariances(values, units, notes, { common: 0.5, stays: 0 });
    // Every bar has as many of either.
    expect(variance(own, others)).toBeCloseTo(1 / own.length + 1 / others.length, 9);
    const [first] = own;
    const gap = values.map((_, at) => (at === first ? NaN : 0));
    const withGap = contrastVariances(gap, units, notes, { common: 0.5, stays: 0 });
    expect(withGap(own, others)).toBeGreaterThan(variance(own, others));
  });

  it.each([
    ['AR(1) 0.5', { common: 1, stays: 0.5 }],
    ['AR(1) 0.7 shared', { common: 1 / 3, stays: 0.7 }],
  ] as const)('is what contrasts of such scatter show: %s', (noise, together) => {
    const variance = contrastVariances(scatter(noise), units, notes, together);
    const takes = Array.from({ length: 1500 }, () => scatter(noise));
    for (const limb of ['R', 'L', 'K', 'F']) {
      const [own, others] = sidesOf(limb);
      const shown = sampleVariance(
        takes.map((values) => contrastOf(values, units, own, others)!.mean),
      );
      // Four standard errors of a variance from so many: 4√(2/1500).
      expect(Math.abs(shown / 64 / variance(own, others) - 1), limb).toBeLessThan(0.146);
    }
  });
});
