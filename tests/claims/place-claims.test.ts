import { describe, expect, it } from 'vitest';
import { longRunCount } from '../run-count';
import {
  informativeACycle,
  isClaimed,
  libraryCases,
  shiftsOf,
  slipRun,
  SLOPPY,
  type PlaceCase,
} from './place-claims';

const SEED = 512;
const cases = libraryCases();
const named = (title: string, layer: number) =>
  cases.find((one) => one.phrase.title === title && one.layer === layer)!;

/** What is said of so many players for each place of a layer. */
function told(one: PlaceCase, runs: number) {
  const count = { right: 0, wrong: 0, silent: 0 };
  for (const shift of shiftsOf(one).told)
    for (let run = 0; run < runs; run++)
      count[slipRun(one, shift, SEED + 977 * shift + 31 * run + one.layer)]++;
  return count;
}

describe('what is said of the place in the phrase', () => {
  it('is right where three partials a cycle tell it, and seldom wrong', () => {
    const counts = cases.map((one) => told(one, longRunCount(6)));
    const [right, wrong, silent] = (['right', 'wrong', 'silent'] as const).map((what) =>
      counts.reduce((sum, count) => sum + count[what], 0),
    ) as [number, number, number];
    const all = right + wrong + silent;
    expect(all).toBeGreaterThan(700);
    expect(right / all).toBeGreaterThanOrEqual(0.98);
    expect(wrong / all).toBeLessThanOrEqual(0.01);
  });

  it('comes as surely where the layer swings, though partials are not as far from each other there', () => {
    const { right, silent } = told(named('Harbour Office Waltz', 2), 40);
    expect(silent / (right + silent)).toBeLessThanOrEqual(0.02);
  });

  // A crash in 48 partials tells sixteen places apart: one that is struck amiss is no reason to be in another.
  it('is seldom wrong where a single note tells it', () => {
    const { right, wrong, silent } = told(named('Three Bollards', 4), 4);
    expect(wrong / (right + wrong + silent)).toBeLessThanOrEqual(0.02);
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
