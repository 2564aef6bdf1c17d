import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { circular } from '../../../src/clock/latency/circular';

describe('circular', () => {
  it('crosses the period where an arithmetic mean lands on the far side', () => {
    // 10 ms early and 10 ms late, counted in a beat of 500 ms.
    expect(circular([490, 10], 500)!.mean).toBeCloseTo(0, 9);
    expect(circular([480, 490], 500)!.mean).toBeCloseTo(-15, 9);
  });

  it('has no answer for nothing, and none where the offsets cancel', () => {
    expect(circular([], 500)).toBeUndefined();
    expect(circular([0, 250], 500)).toBeUndefined();
    expect(() => circular([1], 0)).toThrow(RangeError);
  });

  it('lawTurn: whole periods change nothing', () => {
    const offsets = fc.array(fc.integer({ min: -100, max: 100 }), { minLength: 1, maxLength: 20 });
    fc.assert(
      fc.property(offsets, fc.array(fc.integer({ min: -5, max: 5 })), (list, turns) => {
        const turned = list.map((offset, i) => offset + 500 * (turns[i] ?? 0));
        expect(circular(turned, 500)!.mean).toBeCloseTo(circular(list, 500)!.mean, 8);
      }),
    );
  });
});
