import { describe, expect, it } from 'vitest';
import { departureOf } from '../../../src/coach/timing/departure';
import type { CoursePoint } from '../../../src/coach/timing/course';
import { chance } from '../../../src/time/chance';

const BAR_US = 2_500_000;
/** A point a bar, `msAt` late, with a scatter that no line explains. */
const course = (bars: number, msAt: (bar: number) => number, scatterMs = 1): CoursePoint[] => {
  const { normal } = chance(7);
  return Array.from({ length: bars }, (_, bar) => ({
    timeUs: bar * BAR_US,
    shiftUs: (msAt(bar) + scatterMs * normal()) * 1000,
  }));
};
const found = (points: readonly CoursePoint[], level = 0.006) => departureOf(points, 96, 6, level);

describe('a course that leaves the click', () => {
  it.each<[string, CoursePoint[], string | undefined]>([
    ['stands still', course(16, () => 0), undefined],
    ['is late all along', course(16, () => 40), undefined],
    // 0.3 % of a bar of 2.5 s is 7.5 ms.
    ['rushes by 0.3 %', course(8, (bar) => -7.5 * bar), 'drift'],
    // 0.8 % is below the border, 1 % above it.
    ['rushes by 0.8 %', course(8, (bar) => -20 * bar), 'drift'],
    ['is played 1 % faster', course(8, (bar) => -25 * bar), 'other tempo'],
    ['is played 5 % slower', course(8, (bar) => 125 * bar), 'other tempo'],
    ['gets faster and faster', course(8, (bar) => -3.75 * bar * bar), 'drift'],
    [
      'goes away and comes back',
      course(16, (bar) => 40 * Math.sin((Math.PI * bar) / 15)),
      undefined,
    ],
    // Twice the 6 ms that are noticed.
    ['comes to 11 ms in all', course(16, (bar) => (11 * bar) / 15, 0.2), undefined],
    ['comes to 13 ms in all', course(16, (bar) => (13 * bar) / 15, 0.2), 'drift'],
    ['has too few points', course(3, (bar) => 125 * bar), undefined],
    ['has four points of another tempo', course(4, (bar) => 125 * bar), 'other tempo'],
    ['has five points of a drift', course(5, (bar) => 10 * bar), undefined],
    ['has six points of a drift', course(6, (bar) => 10 * bar), 'drift'],
  ])('%s', (_, points, kind) => {
    expect(found(points)?.kind).toBe(kind);
  });

  it('tells how far, and where it is at a time', () => {
    const departure = found(course(9, (bar) => 125 * bar, 0))!;
    expect(departure.totalUs).toBeCloseTo(1_000_000, -1);
    expect(departure.slope).toBeCloseTo(0.05, 6);
    expect(departure.shiftAt(4 * BAR_US)).toBeCloseTo(500_000, -1);
    expect(departure.shiftAt(-BAR_US)).toBeCloseTo(-125_000, -1);
  });

  it('says whether it grows', () => {
    expect(found(course(8, (bar) => -7.5 * bar))?.isGrowing).toBe(false);
    expect(found(course(8, (bar) => -3.75 * bar * bar))?.isGrowing).toBe(true);
  });

  it('is found where there is none as seldom as the level says', () => {
    const { normal } = chance(11);
    const alarms = Array.from({ length: 2000 }, () =>
      found(
        Array.from({ length: 12 }, (_, bar) => ({
          timeUs: bar * BAR_US,
          shiftUs: 6000 * normal(),
        })),
        0.01,
      ),
    ).filter((departure) => departure !== undefined).length;
    expect(alarms / 2000).toBeLessThanOrEqual(0.01);
  });
});
