import { describe, expect, it } from 'vitest';
import { longRunCount } from '../../run-count';
import { tally } from './coach-claims';
import { CLEAN, FAULTS } from './faults';

/** Nothing was tuned on it. */
let seed = 81_349;
const nextSeed = () => seed++;
const TAKES = longRunCount(72);
const WHITE = { noise: 'white', sdMs: 8 } as const;

/** `npm run -s claims -- coach` counts enough of them to tell what share it is. */
describe(`what the coach says of ${TAKES} takes with one fault`, () => {
  it.each(FAULTS.map((fault) => [fault.name, fault] as const))('%s', (_, fault) => {
    const { namedFirst, otherwise } = tally(fault, WHITE, TAKES, nextSeed);
    expect(namedFirst / TAKES).toBeGreaterThanOrEqual(0.75);
    expect(otherwise / TAKES).toBeLessThanOrEqual(0.25);
  });

  it('is hardly anything where there is none', () => {
    const clean = CLEAN.filter(({ name }) => name.startsWith('no fault'));
    const claims = clean.map((fault) => tally(fault, WHITE, 2 * TAKES, nextSeed).otherwise);
    expect(claims.reduce((sum, one) => sum + one, 0) / clean.length / (2 * TAKES)).toBeLessThan(
      0.1,
    );
  });

  it('is at most a fact that may be meant of limbs 8 ms apart', () => {
    const apart = CLEAN.find(({ name }) => name.startsWith('limbs 8 ms apart'))!;
    const { asFact, otherwise } = tally(apart, WHITE, 2 * TAKES, nextSeed);
    expect(asFact).toBeGreaterThan(0);
    expect(asFact / (2 * TAKES)).toBeLessThan(0.5);
    expect(otherwise / (2 * TAKES)).toBeLessThan(0.1);
    // The right hand has the beat to itself.
    const variants = apart.variants.filter(({ piece }) => piece.name === 'Three Wet Ropes');
    expect(tally({ ...apart, variants }, WHITE, 2 * TAKES, nextSeed).otherwise).toBe(0);
  });
});
