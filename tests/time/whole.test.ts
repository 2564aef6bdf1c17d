import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { divisors, gcd, lcm, remainder } from '../../src/time/whole';

const whole = fc.integer({ min: 1, max: 1000 });

it('lawGcdLcm: gcd divides both, lcm is a multiple of both, and together they make the product', () => {
  fc.assert(
    fc.property(whole, whole, (a, b) => {
      expect([a % gcd(a, b), b % gcd(a, b), lcm(a, b) % a, lcm(a, b) % b]).toEqual([0, 0, 0, 0]);
      expect(gcd(a, b) * lcm(a, b)).toBe(a * b);
    }),
  );
});

// Euclid, Elements VII, proposition 2, as worked in textbooks: gcd(1071, 462) = 21.
it('gcd of 1071 and 462 is 21', () => {
  expect(gcd(1071, 462)).toBe(21);
});

it('gcd takes no heed of signs, and of 0 and a number is the number', () => {
  expect([gcd(-12, 18), gcd(12, -18), gcd(0, 5), gcd(5, 0)]).toEqual([6, 6, 5, 5]);
});

it.each([1, 2, 7, 12, 36, 97, 720, 4096])('divisors of %i, found by trying every number', (of) => {
  const tried = Array.from({ length: of }, (_, i) => i + 1).filter((each) => of % each === 0);
  expect(divisors(of)).toEqual(tried);
});

it('remainder is never negative and keeps the class', () => {
  fc.assert(
    fc.property(fc.integer({ min: -5000, max: 5000 }), whole, (value, of) => {
      const found = remainder(value, of);
      expect(found >= 0 && found < of).toBe(true);
      expect(Math.abs(found - value) % of).toBe(0);
    }),
  );
});
