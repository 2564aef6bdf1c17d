import { beforeAll, describe, expect, it } from 'vitest';
import { longRunCount } from '../run-count';
import { heardFree } from './heard-free';
import { randomPlayings } from './played-rounds';

/** Looked at once while capture was written, which made it never sure of a tempo; its weights were tuned on others. */
const SEEDS = [9203, 9204];
const PLAYINGS = longRunCount(300);

describe(`${PLAYINGS} random phrases on each of the seeds ${SEEDS.join(' and ')}, played without a click with 12 ms spread, 3 % missed and extra strokes`, () => {
  let heard: ReturnType<typeof heardFree>[];
  beforeAll(() => {
    heard = SEEDS.flatMap((seed) => randomPlayings(PLAYINGS, seed)).map((playing) =>
      heardFree(playing),
    );
  }, 600_000);
  const share = (of: 'partial' | 'cycle' | 'tempo') =>
    heard.filter((one) => one[of]).length / heard.length;

  it('have their partial and their cycle found', () => {
    expect(share('partial')).toBeGreaterThanOrEqual(0.94);
    expect(share('cycle')).toBeGreaterThanOrEqual(0.92);
  });

  /** Who knows how often each partial belongs to each tempo in these phrases, and nothing else, is right in 43.5 %. */
  it('have their tempo found in three of ten at least', () => {
    expect(share('tempo')).toBeGreaterThanOrEqual(0.3);
  });

  it('are mostly said to be sure of the cycle, and wrongly so in one of twenty at most', () => {
    const sure = heard.filter((one) => one.sure.has('cycle'));
    expect(sure.length / heard.length).toBeGreaterThan(0.85);
    expect(sure.filter(({ cycle }) => !cycle).length).toBeLessThanOrEqual(sure.length / 20);
  });

  it('are never said to be sure of the tempo, the subdivision or the bar', () => {
    const about = heard.flatMap(({ sure }) => [...sure]);
    expect(about).not.toContain('tempo');
    expect(about).not.toContain('subdivision');
    expect(about).not.toContain('meter position');
  });

  it('mostly have their tempo among those that are told', () => {
    const told = heard.filter(({ tempo, otherTempo }) => tempo || otherTempo);
    expect(told.length / heard.length).toBeGreaterThanOrEqual(0.75);
  });
});
