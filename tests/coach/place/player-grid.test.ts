import { describe, expect, it } from 'vitest';
import { PlayerGrid } from '../../../src/coach/place/player-grid';
import { chance } from '../../../src/time/chance';

/** Plays partials at another tempo; the partials over which the player was carried, and the grid. */
function playedAt(slower: number, count: number) {
  const grid = new PlayerGrid();
  grid.reset(0);
  let partial = 0;
  const carried: number[] = [];
  for (let stroke = 0; stroke < count; stroke++) {
    const over = grid.follow(partial, stroke * (1 + slower) - partial);
    if (over !== 0) carried.push(stroke);
    partial += 1 + over;
  }
  return { grid, carried };
}

describe("the player's own partials", () => {
  it.each([0.003, 0.01, 0.03, 0.05])('are followed when they are %f longer', (slower) => {
    const { carried, grid } = playedAt(slower, 800);
    // One partial behind after 1 / slower strokes, first when it is 0.6 behind.
    expect(carried[0]).toBeGreaterThanOrEqual(0.6 / slower);
    expect(carried[0]).toBeLessThan(0.6 / slower + 12);
    expect(carried[1]! - carried[0]!).toBeCloseTo(1 / slower, -1);
    expect(grid.isCarried).toBe(true);
  });

  it.each([-0.01, -0.03, -0.05])('and when they are %f shorter', (slower) => {
    const { carried, grid } = playedAt(slower, 800);
    expect(carried[0]).toBeGreaterThanOrEqual(-0.6 / slower);
    expect(grid.isCarried).toBe(true);
  });

  it('are not those of the click while 0.3 % carries on, however the strokes scatter', () => {
    // AR(1) 0.7 of 12 ms, partials of 167 ms.
    const spread = 12 / 167;
    let settled = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const { normal } = chance(seed);
      const grid = new PlayerGrid();
      grid.reset(0);
      let partial = 0;
      let together = normal();
      let wasCarried = false;
      for (let stroke = 0; stroke < 512; stroke++) {
        together = 0.7 * together + Math.sqrt(1 - 0.7 ** 2) * normal();
        partial += 1 + grid.follow(partial, stroke * 1.003 - partial + spread * together);
        wasCarried ||= grid.isCarried;
        if (!wasCarried || grid.isCarried) continue;
        settled++;
        break;
      }
    }
    expect(settled).toBeLessThanOrEqual(4);
  });

  it('are those of the click after 96 partials with it, wherever they come to lie', () => {
    const { grid } = playedAt(0.03, 25);
    expect(grid.isCarried).toBe(true);
    const at = (count: number) => {
      for (let partial = 27; partial < 27 + count; partial++) grid.follow(partial, 0);
      return grid.isCarried;
    };
    expect(at(88)).toBe(true);
    expect(at(128)).toBe(false);
  });

  it('are carried on by eight partials of silence at most', () => {
    const { grid } = playedAt(0.03, 12);
    const last = 11;
    const one = grid.offsetAt(last + 1) - grid.offsetAt(last);
    expect(one).toBeGreaterThan(0.01);
    expect(grid.offsetAt(last + 8) - grid.offsetAt(last)).toBeCloseTo(8 * one, 6);
    expect(grid.offsetAt(last + 80)).toBe(grid.offsetAt(last + 8));
  });
});
