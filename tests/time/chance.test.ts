import { describe, expect, it } from 'vitest';
import { chance } from '../../src/time/chance';

describe('chance', () => {
  // [F] values of the generator as two independent ports test them
  it.each([
    [0, [1144304738, 1416247, 958946056, 627933444]],
    [1985, [3527837133, 3112574143]],
  ])('is mulberry32 from seed %i', (seed, expected) => {
    const source = chance(seed);
    expect(expected.map(() => source.next())).toEqual(expected);
  });

  it('has normal numbers of mean 0, spread 1 and the right share within one spread (68.27 %)', () => {
    const source = chance(7);
    const numbers = Array.from({ length: 20_000 }, () => source.normal());
    const mean = numbers.reduce((sum, x) => sum + x, 0) / numbers.length;
    const variance = numbers.reduce((sum, x) => sum + (x - mean) ** 2, 0) / numbers.length;
    expect(Math.abs(mean)).toBeLessThan(0.03);
    expect(Math.abs(variance - 1)).toBeLessThan(0.04);
    const within = numbers.filter((x) => Math.abs(x) < 1).length / numbers.length;
    expect(Math.abs(within - 0.6827)).toBeLessThan(0.015);
  });
});
