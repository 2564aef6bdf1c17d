import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { correlator } from '../../../../src/clock/latency/microphone/correlator';

const samples = (minLength: number, maxLength: number) =>
  fc
    .array(fc.integer({ min: -1000, max: 1000 }), { minLength, maxLength })
    .map((values) => Float64Array.from(values));

describe('the correlation of a sound with a template', () => {
  it('law: at every place it is the sum of products, whatever the lengths, call after call', () => {
    fc.assert(
      fc.property(
        samples(1, 40),
        fc.integer({ min: 1, max: 70 }),
        fc.array(samples(0, 140), { minLength: 1, maxLength: 3 }),
        (template, reach, parts) => {
          const correlate = correlator(template, reach);
          for (const part of parts) {
            const sums = Array.from({ length: reach }, (_, at) =>
              template.reduce((sum, value, i) => sum + value * (part[at + i] ?? 0), 0),
            );
            correlate(part).forEach((sum, at) =>
              expect(Math.abs(sum - sums[at]!)).toBeLessThan(1e-4),
            );
          }
        },
      ),
    );
  });

  it('of nothing is nothing, not a rest of rounding', () => {
    expect([...correlator(Float64Array.of(1, 2), 3)(new Float64Array(4))]).toEqual([0, 0, 0]);
  });
});
