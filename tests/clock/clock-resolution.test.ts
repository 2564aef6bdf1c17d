import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createResolutionWatch, resolutionOf } from '../../src/clock/clock-resolution';
import { seeded } from './simulated-clocks';

/** Readings of a clock told in steps, each read up to `everyMs` after the one before. */
function stepSeen(stepMs: number, everyMs: number, seed: number): number {
  const random = seeded(seed);
  const watch = createResolutionWatch();
  for (let n = 0, ms = 1234.5; n < 400; n++) {
    watch.add(Math.floor(ms / stepMs) * stepMs);
    ms += random() * everyMs;
  }
  return watch.resolution.stepMs;
}

describe('the resolution of the clock', () => {
  // Steps that browsers use: 5 µs and 100 µs (W3C High Resolution Time), 1, 2 and 100 ms (MDN, performance.now) [F].
  it.each([0.005, 0.1, 1, 2, 16.7, 100])(
    'finds steps of %d ms in any rhythm of reading',
    (step) => {
      fc.assert(
        fc.property(fc.nat(), fc.double({ min: 0.5, max: 20, noNaN: true }), (seed, rhythm) => {
          expect(stepSeen(step, step * rhythm, seed)).toBeCloseTo(step, 3);
        }),
        { numRuns: 30 },
      );
    },
  );

  it('is not led astray by the last bits of doubles, short and long gaps mixed', () => {
    const random = seeded(7);
    const watch = createResolutionWatch();
    for (let n = 0, tenths = 123_456_789; n < 400; n++) {
      // As Chromium tells them: tenths of a millisecond, some 1e-9 off.
      watch.add(tenths / 10 + (random() - 0.5) * 1e-9);
      tenths += 1 + Math.floor(random() * (n % 9 === 0 ? 200_000 : 3000));
    }
    expect(watch.resolution).toMatchObject({ stepMs: 0.1, name: 'fine' });
  });

  it('finds them by reading as fast as it can, where every change is one step', () => {
    const watch = createResolutionWatch();
    for (let n = 0; n < 4000; n++) watch.add(Math.floor(n / 100) * 2);
    expect(watch.resolution.stepMs).toBe(2);
  });

  it('does not take a steady rhythm of reading for the clock’s steps', () => {
    const watch = createResolutionWatch();
    for (let n = 0; n < 100; n++) watch.add(100 * n);
    expect(watch.resolution.name).toBe('unknown');
    watch.add(10_050.3);
    expect(watch.resolution.name).toBe('fine');
  });

  it('adds the spread of a uniform error: 1 ms 0.289, 2 ms 0.577, 100 ms 28.9 [C]', () => {
    const spreads = [1, 2, 100].map((step) => resolutionOf(step).addedSpreadMs);
    expect(spreads.map((spread) => Number(spread.toPrecision(3)))).toEqual([0.289, 0.577, 28.9]);
  });

  it('says what the steps mean', () => {
    expect([0.1, 1, 2, 100].map((step) => resolutionOf(step).name)).toEqual([
      'fine',
      'coarse',
      'coarse',
      'useless',
    ]);
    expect(resolutionOf(100).sentence).toContain('steps of 100 ms, which add 29 ms of spread');
  });
});
