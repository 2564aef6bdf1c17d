import { cumulativeStdNormalProbability, mean, probit } from 'simple-statistics';
import { ERROR_RATE } from '../../../src/coach/take-evidence';
import { causesOf } from './causes';
import type { Fault, Variant } from './faults';
import type { Scatter } from './player';
import { correlationOf } from './scatter';

/**
 * Share of the takes in which a fault of time can be seen: the best linear unbiased estimate (Aitken 1935, Proc. R. Soc.
 * Edinb. 55:42-48 [M]) of what its notes have more than the others, by somebody who knows those notes and how offsets go
 * together, and who spends the error rate of a take on the causes of the phrase (Bonferroni). Nobody names much more of
 * them without more false alarms. Undefined for faults that are no shift of some notes.
 */
export function seenAtBest({ variants }: Fault, scatter: Scatter): number | undefined {
  const shares = variants.map((one) => seen(one, scatter));
  return shares.some((share) => share === undefined) ? undefined : mean(shares as number[]);
}

function seen({ piece, bars, notes, shiftMs }: Variant, { noise, sdMs }: Scatter) {
  if (shiftMs === undefined) return undefined;
  const due = piece.notes(bars);
  const half = whitened(
    due.length,
    correlationOf(due, noise),
    due.map((one) => (notes.has(one) ? 1 : 0)),
    due.map(() => 1),
  );
  const [own, all] = half as [Float64Array, Float64Array];
  const information = dot(own, own) - dot(own, all) ** 2 / dot(all, all);
  const errors = (Math.abs(shiftMs) / sdMs) * Math.sqrt(information);
  const causes = causesOf(due, piece.subdivision, piece.layer).size;
  return cumulativeStdNormalProbability(errors + probit(ERROR_RATE / causes / 2));
}

const dot = (a: Float64Array, b: Float64Array) =>
  a.reduce((sum, value, i) => sum + value * b[i]!, 0);

/** Vectors times the inverse of the Cholesky root of a matrix of correlations. */
function whitened(
  size: number,
  correlation: (i: number, j: number) => number,
  ...vectors: readonly (readonly number[])[]
): Float64Array[] {
  const rows: Float64Array[] = [];
  const white = vectors.map(() => new Float64Array(size));
  for (let i = 0; i < size; i++) {
    const row = new Float64Array(i + 1);
    for (let j = 0; j <= i; j++) {
      const other = j < i ? rows[j]! : row;
      let left = correlation(i, j);
      for (let k = 0; k < j; k++) left -= row[k]! * other[k]!;
      row[j] = j < i ? left / other[j]! : Math.sqrt(left);
    }
    rows.push(row);
    vectors.forEach((vector, v) => {
      let left = vector[i]!;
      for (let k = 0; k < i; k++) left -= row[k]! * white[v]![k]!;
      white[v]![i] = left / row[i]!;
    });
  }
  return white;
}
