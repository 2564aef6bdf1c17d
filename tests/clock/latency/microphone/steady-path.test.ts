import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { steadyPath } from '../../../../src/clock/latency/microphone/steady-path';

/** What a path collects, by the rule as it is written down: a thirtieth of a move to a neighbour. */
function collected(rows: readonly Float32Array[], path: readonly number[], moveCost: number) {
  return path.reduce((sum, column, k) => {
    const far = k === 0 ? 0 : Math.abs(column - path[k - 1]!);
    return sum + rows[k]![column]! - (far === 0 ? 0 : far === 1 ? moveCost / 30 : moveCost);
  }, 0);
}

const everyPath = (rows: number, width: number): number[][] =>
  rows === 0
    ? [[]]
    : everyPath(rows - 1, width).flatMap((path) =>
        Array.from({ length: width }, (_, column) => [...path, column]),
      );

describe('the steady path', () => {
  it('law: no path of all collects more', () => {
    const width = 4;
    const row = fc
      .array(fc.integer({ min: 0, max: 20 }), { minLength: width, maxLength: width })
      .map((tenths) => Float32Array.from(tenths, (tenth) => tenth / 10));
    fc.assert(
      fc.property(
        fc.array(row, { minLength: 1, maxLength: 5 }),
        fc.constantFrom(0.3, 1.5, 6),
        (rows, cost) => {
          const { columns } = steadyPath(rows, cost);
          const best = Math.max(
            ...everyPath(rows.length, width).map((path) => collected(rows, path, cost)),
          );
          expect(collected(rows, columns, cost)).toBeCloseTo(best, 5);
        },
      ),
    );
  });

  const at = (column: number) => Float32Array.from({ length: 9 }, (_, i) => (i === column ? 1 : 0));

  it('follows a jump that two rows back against a cost of one and a half, and not one that one row backs', () => {
    const { columns, hasMoved } = steadyPath([2, 2, 2, 7, 7].map(at), 1.5);
    expect(columns).toEqual([2, 2, 2, 7, 7]);
    expect(hasMoved).toEqual([false, false, false, true, false]);
    expect(steadyPath([2, 2, 2, 7].map(at), 1.5).columns).toEqual([2, 2, 2, 2]);
  });

  it('drifts to a neighbour without calling it a move', () => {
    const { columns, hasMoved } = steadyPath([2, 3, 4].map(at), 1.5);
    expect(columns).toEqual([2, 3, 4]);
    expect(hasMoved).toEqual([false, false, false]);
  });

  // With a cost of 30 a neighbour takes 1.
  it.each([
    ['stays, rather than to go right for as much', 30, ['1 0', '0 2'], [1, 1]],
    ['stays, rather than to go left for as much', 30, ['0 1', '2 0'], [0, 0]],
    ['stays, rather than to go far for as much', 3, ['3 0 0', '0 0 4'], [2, 2]],
    ['goes right for more', 30, ['1.5 0', '0 2'], [0, 1]],
    ['goes left for more', 30, ['0 1.5', '2 0'], [1, 0]],
    ['goes far for more', 3, ['3.5 0 0', '0 0 4'], [0, 2]],
  ])('%s', (_, cost, rows, path) => {
    const scores = rows.map((row) => Float32Array.from(row.split(' '), Number));
    expect(steadyPath(scores, cost).columns).toEqual(path);
  });

  it('of columns that collect as much takes the first', () => {
    expect(steadyPath([Float32Array.of(0, 1, 1)], 1.5).columns).toEqual([1]);
  });

  it('has no column where there is no row', () => {
    expect(steadyPath([], 1.5)).toEqual({ columns: [], hasMoved: [] });
  });
});
