import { describe, expect, it } from 'vitest';
import { longRunCount } from '../run-count';
import {
  informativeACycle,
  isClaimed,
  libraryCases,
  shiftsOf,
  slipRun,
  SLOPPY,
} from './place-claims';

const SEED = 512;
const cases = libraryCases();
const named = (title: string, layer: number) =>
  cases.find((one) => one.phrase.title === title && one.layer === layer)!;

describe('what is said of the place in the phrase', () => {
  it('is right where three partials a cycle tell it, and seldom wrong', () => {
    const count = { right: 0, wrong: 0, silent: 0 };
    for (const one of cases)
      for (const shift of shiftsOf(one).told)
        for (let run = 0; run < longRunCount(6); run++)
          count[slipRun(one, shift, SEED + 977 * shift + 31 * run + one.layer)]++;
    const all = count.right + count.wrong + count.silent;
    expect(all).toBeGreaterThan(700);
    expect(count.right / all).toBeGreaterThanOrEqual(0.97);
    expect(count.wrong / all).toBeLessThanOrEqual(0.015);
  });

  it('is nothing of a sloppy player who keeps it, or of one at another tempo', () => {
    const claimed = (player: Parameters<typeof isClaimed>[1]) =>
      cases.filter((one, c) => isClaimed(one, player, SEED + c)).length;
    expect(claimed(SLOPPY)).toBeLessThanOrEqual(2);
    expect(claimed({ ...SLOPPY, spreadMs: 12, slower: 0.03 })).toBeLessThanOrEqual(2);
    expect(claimed({ ...SLOPPY, spreadMs: 12, slower: -0.03 })).toBeLessThanOrEqual(2);
  });
});

describe('the layers that players are lost in', () => {
  // By eye: "R L L R K" five times over a cycle of 20, all hands on the snare.
  it('come round where they sound the same', () => {
    expect(named('Quay Steps', 1)).toMatchObject({ round: 5, cyclePartials: 20 });
    expect(informativeACycle(named('Quay Steps', 1), 1)).toBe(8);
    expect(shiftsOf(named('Three Bollards', 1))).toEqual({ told: [], exempt: [1, -1] });
  });
});
