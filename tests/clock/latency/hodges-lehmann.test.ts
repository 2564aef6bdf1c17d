import { describe, expect, it } from 'vitest';
import { hodgesLehmann, signedRankCritical } from '../../../src/clock/latency/hodges-lehmann';
import { chance } from '../../../src/time/chance';

const SEED = 20_263;

describe(`robust location, seed ${SEED}`, () => {
  it('has an interval that covers at its rate, on even and on heavy-tailed noise', () => {
    const { normal } = chance(SEED);
    let even = 0;
    let heavy = 0;
    for (let run = 0; run < 1000; run++) {
      const noise = Array.from({ length: 28 }, () => normal());
      const tails = noise.map((value) => value / Math.abs(normal()));
      const a = hodgesLehmann(noise)!;
      const b = hodgesLehmann(tails)!;
      if (a.lower <= 0 && 0 <= a.upper) even++;
      if (b.lower <= 0 && 0 <= b.upper) heavy++;
    }
    for (const covered of [even, heavy]) {
      expect(covered / 1000).toBeGreaterThan(0.95 - 0.0276);
      expect(covered / 1000).toBeLessThan(0.95 + 0.0276);
    }
  });

  it('is not moved far by a fifth of wild values', () => {
    const values = [
      ...Array.from({ length: 24 }, (_, i) => i - 11.5),
      900,
      950,
      1000,
      980,
      990,
      970,
    ];
    expect(Math.abs(hodgesLehmann(values)!.location)).toBeLessThan(8);
  });

  it('goes over to the normal approximation without a step', () => {
    const step = signedRankCritical(61) - signedRankCritical(60);
    const before = signedRankCritical(60) - signedRankCritical(59);
    expect(Math.abs(step - before)).toBeLessThanOrEqual(2);
  });
});
