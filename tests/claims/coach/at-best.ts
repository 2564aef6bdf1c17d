import { cumulativeStdNormalProbability, mean, quantile } from 'simple-statistics';
import { ERROR_RATE } from '../../../src/coach/take-evidence';
import type { TimedNote } from '../../../src/match/timed-note';
import { chance } from '../../../src/time/chance';
import { causesOf } from './causes';
import type { Fault, Variant } from './faults';
import type { Piece } from './phrases';
import type { Scatter } from './player';
import { correlationOf, type Noise } from './scatter';

/** Shares of the takes in which a fault of time can be seen by somebody who knows how offsets go together. */
export interface SeenAtBest {
  /** Looking at every cause of the phrase, as the coach has to. */
  readonly ofAll: number;
  /** Looking at causes of this kind alone, and at nothing else. */
  readonly ofKind: number;
}

/**
 * What nobody goes beyond without more false alarms: each cause is told by the best linear unbiased estimate (Aitken
 * 1935, Proc. R. Soc. Edinb. 55:42-48 [M]) of what its notes have more than the others, from the largest of these
 * in standard errors on that comes up in no more than the error rate of takes without a fault. Undefined for faults that are
 * no shift of some notes.
 */
export function seenAtBest({ variants }: Fault, scatter: Scatter): SeenAtBest | undefined {
  const all = variants.map((one) => seen(one, scatter));
  if (all.some((one) => one === undefined)) return undefined;
  return {
    ofAll: mean(all.map((one) => one!.ofAll)),
    ofKind: mean(all.map((one) => one!.ofKind)),
  };
}

function seen({ piece, bars, notes, shiftMs }: Variant, { noise, sdMs }: Scatter) {
  if (shiftMs === undefined) return undefined;
  const { due, looks, ofNone } = looksAt(piece, bars, noise);
  const touched = due.filter((one) => notes.has(one));
  const own = looks.find(({ of }) => of.size === touched.length && touched.every(isIn(of)));
  if (!own) return undefined;
  const errors = (Math.abs(shiftMs) / sdMs) * Math.sqrt(dot(own.apart, own.apart));
  const share = (kind: string) => cumulativeStdNormalProbability(errors - ofNone(kind));
  return { ofAll: share(EVERY_KIND), ofKind: share(own.kind) };
}

interface Look {
  /** The first word of its cause's name. */
  readonly kind: string;
  readonly of: ReadonlySet<TimedNote>;
  /** What its notes have more than the others, in offsets that do not go together. */
  readonly apart: Float64Array;
}

interface Looks {
  readonly due: readonly TimedNote[];
  readonly looks: readonly Look[];
  /** What the largest estimate of a kind exceeds where there is nothing, in standard errors. */
  readonly ofNone: (kind: string) => number;
}

const EVERY_KIND = '';
const known = new Map<string, Looks>();

/** The same for every fault of so many bars: worked out once. */
function looksAt(piece: Piece, bars: number, noise: Noise): Looks {
  const name = `${piece.name}, ${bars} bars, ${noise}`;
  const all = known.get(name) ?? newLooks(piece, bars, noise);
  known.set(name, all);
  return all;
}

function newLooks(piece: Piece, bars: number, noise: Noise): Looks {
  const due = piece.notes(bars);
  const causes = [...causesOf(due, piece.subdivision, piece.layer)].filter(
    ([, of]) => of.size < due.length,
  );
  const [all, ...own] = whitened(due.length, correlationOf(due, noise), [
    due.map(() => 1),
    ...causes.map(([, of]) => due.map((one) => (of.has(one) ? 1 : 0))),
  ]) as [Float64Array, ...Float64Array[]];
  const looks = causes.map(([name, of], i) => {
    const inCommon = dot(own[i]!, all) / dot(all, all);
    const apart = own[i]!.map((value, j) => value - inCommon * all[j]!);
    return { kind: name.split(' ')[0]!, of, apart };
  });
  const largest = new Map<string, number>();
  const ofNone = (kind: string) => {
    const lookedAt = looks.filter((one) => kind === EVERY_KIND || one.kind === kind);
    const found = largest.get(kind) ?? largestOfNone(lookedAt.map(({ apart }) => apart));
    largest.set(kind, found);
    return found;
  };
  return { due, looks, ofNone };
}

const isIn =
  <T>(some: ReadonlySet<T>) =>
  (one: T) =>
    some.has(one);

/** Takes without a fault that are drawn: of so many the error of a share of 2 % is 0.1 %. */
const DRAWS = 20_000;

/** What the largest of several estimates, in standard errors, exceeds in the error rate of takes in which there is nothing. */
function largestOfNone(looks: readonly Float64Array[]): number {
  const size = looks.map((one) => Math.sqrt(dot(one, one)));
  const together = (i: number, j: number) => dot(looks[i]!, looks[j]!) / size[i]! / size[j]!;
  const rows = choleskyRoot(looks.length, together);
  const { normal } = chance(looks.length);
  const largest = Array.from({ length: DRAWS }, () => {
    const drawn = looks.map(normal);
    return rows.reduce((most, row) => Math.max(most, Math.abs(dot(row, drawn))), 0);
  });
  return quantile(largest, 1 - ERROR_RATE);
}

function dot(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

/** So small a pivot is none: the row is told by those before it. */
const NO_PIVOT = 1e-9;

/** Rows of the lower triangle whose product with its transpose is a matrix of correlations. */
function choleskyRoot(
  size: number,
  correlation: (i: number, j: number) => number,
): readonly Float64Array[] {
  const rows: Float64Array[] = [];
  for (let i = 0; i < size; i++) {
    const row = new Float64Array(i + 1);
    for (let j = 0; j <= i; j++) {
      const other = j < i ? rows[j]! : row;
      let left = correlation(i, j);
      for (let k = 0; k < j; k++) left -= row[k]! * other[k]!;
      const pivot = j < i ? other[j]! : Math.sqrt(Math.max(0, left));
      row[j] = j === i ? (pivot > NO_PIVOT ? pivot : 0) : pivot > 0 ? left / pivot : 0;
    }
    rows.push(row);
  }
  return rows;
}

/** Vectors times the inverse of the Cholesky root of a matrix of correlations. */
function whitened(
  size: number,
  correlation: (i: number, j: number) => number,
  vectors: readonly (readonly number[])[],
): Float64Array[] {
  const rows = choleskyRoot(size, correlation);
  return vectors.map((vector) => {
    const white = new Float64Array(size);
    rows.forEach((row, i) => {
      white[i] = (vector[i]! - dot(row.subarray(0, i), white)) / row[i]!;
    });
    return white;
  });
}
