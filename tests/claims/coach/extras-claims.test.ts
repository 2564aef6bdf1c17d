import { describe, expect, it } from 'vitest';
import { longRunCount } from '../../run-count';
import { EXTRAS_CLAIMS } from './extras-claims';
import { NOISES } from './scatter';

/** Nothing was tuned on it. */
let seed = 93_811;
const TAKES = longRunCount(480);

/** `npm run -s claims -- coach` counts enough of them to tell what share it is. */
describe(`beside what extra strokes are said to be, ${TAKES} takes`, () => {
  const [anywhere, right, wrong] = EXTRAS_CLAIMS;
  const share = (claim: typeof anywhere) => {
    const takes = Array.from({ length: TAKES }, (_, take) => take);
    const isSaid = (take: number) =>
      claim!.isSaid(take, { noise: NOISES[take % NOISES.length]!, sdMs: 8 }, seed++);
    return takes.filter(isSaid).length / TAKES;
  };

  it('has these aims', () => {
    const aims = EXTRAS_CLAIMS.map(({ most }) => most({ noise: 'AR(1) 0.5', sdMs: 12 }));
    expect(aims).toEqual([0.02, undefined, 0.02]);
  });

  it('is nothing where they come at any time', () => {
    // Two in a hundred, and two standard deviations of that.
    expect(share(anywhere)).toBeLessThanOrEqual(0.02 + 2 * Math.sqrt((0.02 * 0.98) / TAKES));
  });

  it('is their place where four in five gather, and no other', () => {
    expect(share(right)).toBeGreaterThan(0.9);
    expect(share(wrong)).toBeLessThanOrEqual(0.02 + 2 * Math.sqrt((0.02 * 0.98) / TAKES));
  });
});
