/**
 * The path through rows of scores that collects most, where each move from one column to another costs the same
 * however far it goes, and one to a neighbour next to nothing: Viterbi's algorithm, exact. Of equal paths, one
 * that moves less.
 *
 * @param rows one score for each column; all rows are of one length.
 * @param moveCost what a move takes off, in units of the scores; a neighbour takes a thirtieth.
 * @returns the column of each row; where it moves, `hasMoved` of the row it moved to.
 * @example steadyPath([Float32Array.of(1, 0, 0), Float32Array.of(0, 0, 0.5), Float32Array.of(1, 0, 0)], 1).columns // => [0, 0, 0]
 */
export function steadyPath(
  rows: readonly Float32Array[],
  moveCost: number,
): { columns: number[]; hasMoved: boolean[] } {
  const width = rows[0]?.length ?? 0;
  const driftCost = moveCost / DRIFTS_A_MOVE;
  const cameFrom: Int32Array[] = [];
  let best = new Float64Array(width);
  for (const scores of rows) {
    const from = new Int32Array(width);
    const next = new Float64Array(width);
    const top = topOf(best);
    for (let column = 0; column < width; column++) {
      let before = column;
      let sum = best[column]!;
      if (column > 0 && best[column - 1]! - driftCost > sum)
        sum = best[(before = column - 1)]! - driftCost;
      if (column < width - 1 && best[column + 1]! - driftCost > sum)
        sum = best[(before = column + 1)]! - driftCost;
      if (best[top]! - moveCost > sum) sum = best[(before = top)]! - moveCost;
      from[column] = before;
      next[column] = sum + scores[column]!;
    }
    cameFrom.push(from);
    best = next;
  }
  const columns: number[] = [];
  let column = topOf(best);
  for (let k = rows.length - 1; k >= 0; k--) {
    columns[k] = column;
    column = cameFrom[k]![column]!;
  }
  const hasMoved = columns.map((to, k) => Math.abs(to - (columns[k - 1] ?? to)) > 1);
  return { columns, hasMoved };
}

/** Chosen, not measured. */
const DRIFTS_A_MOVE = 30;

function topOf(values: ArrayLike<number>): number {
  let top = 0;
  for (let i = 1; i < values.length; i++) if (values[i]! > values[top]!) top = i;
  return top;
}
