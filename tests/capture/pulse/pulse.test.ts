import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { PlayedStroke } from '../../../src/capture/played-stroke';
import { findPulse } from '../../../src/capture/pulse/pulse';
import { chance } from '../../../src/time/chance';

/** Strokes of the snare so many ms after the start of a round, as many rounds, with a spread of 12 ms. */
function rounds(roundMs: number, count: number, atMs: readonly number[], seed = 5): PlayedStroke[] {
  const { normal } = chance(seed);
  return Array.from({ length: count }, (_, round) =>
    atMs.map((at): PlayedStroke => ({
      timeUs: Math.round((round * roundMs + at + 12 * normal()) * 1000) + 1_000_000,
      voice: 'snare',
      velocity: 80,
    })),
  )
    .flat()
    .toSorted((a, b) => a.timeUs - b.timeUs);
}

const pulseMs = (strokes: readonly PlayedStroke[]) => findPulse(strokes)!.periodUs / 1000;

describe('the pulse of strokes', () => {
  it('is the one stroke between the others, if it is there in every round', () => {
    const eighths = [0, 300, 600, 900, 1200, 1500, 1800, 2100];
    expect(pulseMs(rounds(2400, 8, eighths))).toBeCloseTo(300, -1);
    expect(pulseMs(rounds(2400, 8, [...eighths, 1650]))).toBeCloseTo(150, -1);
    const once = rounds(2400, 8, eighths);
    expect(pulseMs([...once, { ...once[20]!, timeUs: once[20]!.timeUs + 150_000 }])).toBeCloseTo(
      300,
      -1,
    );
  });

  it('is not finer because grace notes come ahead of some strokes', () => {
    expect(pulseMs(rounds(1200, 12, [0, 270, 300, 600, 870, 900]))).toBeCloseTo(300, -1);
  });

  it('comes round as the strokes do', () => {
    const { cyclePulses, periodUs } = findPulse(rounds(1190, 12, [0, 340, 510, 850]))!;
    expect([cyclePulses, Math.round(periodUs / 10_000)]).toEqual([7, 17]);
  });

  it('is followed where a player slows down by 4 %', () => {
    const strokes = rounds(1200, 20, [0, 200, 600, 800, 1000]).map((stroke) => ({
      ...stroke,
      timeUs: Math.round(stroke.timeUs * (1 + (0.04 * stroke.timeUs) / 50e6)),
    }));
    const { places, periodUs } = findPulse(strokes)!;
    expect(Math.abs(periodUs / 200_000 - 1)).toBeLessThan(0.04);
    const last = Math.round(places.at(-1)! - places[0]!);
    expect(last).toBe(20 * 6 - 1);
  });

  it('lawLater: the same strokes at any other time have the same pulse', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 600_000_000 }), fc.nat(20), (laterUs, seed) => {
        const strokes = rounds(1000, 10, [0, 250, 625], seed);
        const later = strokes.map((stroke) => ({ ...stroke, timeUs: stroke.timeUs + laterUs }));
        expect(pulseMs(later)).toBeCloseTo(pulseMs(strokes), 3);
      }),
      { numRuns: 15 },
    );
  });

  it('needs eight strokes', () => {
    expect(findPulse(rounds(1000, 7, [0]))).toBeUndefined();
  });
});
