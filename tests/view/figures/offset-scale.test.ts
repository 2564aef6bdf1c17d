import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { axisHalfMs, onAxis } from '../../../src/view/figures/offset-scale';

const place = fc.record({
  meanMs: fc.option(fc.double({ min: -200, max: 200, noNaN: true }), { nil: undefined }),
  spreadMs: fc.option(fc.double({ min: 0, max: 100, noNaN: true }), { nil: undefined }),
});

describe('the common offset axis', () => {
  it('holds every mean with its spread', () => {
    fc.assert(
      fc.property(fc.array(place), (places) => {
        const half = axisHalfMs(places);
        for (const { meanMs = 0, spreadMs = 0 } of places) {
          expect(onAxis(meanMs - spreadMs, half)).toBeGreaterThanOrEqual(-1e-9);
          expect(onAxis(meanMs + spreadMs, half)).toBeLessThanOrEqual(100 + 1e-9);
        }
      }),
    );
  });

  it('puts early left of the middle and late right of it', () => {
    expect(axisHalfMs([])).toBe(20);
    expect(onAxis(-10, 20)).toBe(25);
    expect(onAxis(10, 20)).toBe(75);
  });
});
