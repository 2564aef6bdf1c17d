import { clamp } from '../time/whole';
import { MAD_TO_SPREAD } from '../score/statistics/spread';

/** A straight line through noisy points, with what it knows about its own error. */
export interface RobustLine {
  readonly centreX: number;
  /** Value of the line at `centreX`. */
  readonly centreY: number;
  readonly slope: number;
  /** Robust spread of the points about the line: 1.4826 times the median absolute residual. */
  readonly spread: number;
  /** Standard errors, widened where neighbouring residuals resemble each other. */
  readonly centreError: number;
  readonly slopeError: number;
  /** Median residual: how far another robust middle is from this one. */
  readonly skew: number;
  readonly count: number;
}

/** The points `from` up to but not including `to` of two columns. */
export interface PointRange {
  /** Ascending. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly from: number;
  readonly to: number;
}

/** What is known of the slope beforehand, as if measured with this standard error. */
export interface SlopePrior {
  readonly slope: number;
  readonly error: number;
}

/**
 * Residuals beyond this many spreads count nothing. The usual 4.685 gives 95 % efficiency on normal
 * noise (Holland & Welsch 1977); stamps have a tail to one side, and 3 was chosen by simulation,
 * where it moves the line by 0.10 ms and 4.685 by 0.16.
 */
export const CUTOFF = 3;
/** No smaller spread is believed, ms: performance time itself has steps of 0.1 (W3C High Resolution Time, coarsen time). */
const LEAST_SPREAD = 0.1;
const MOST_ROUNDS = 25;
/** Chosen, not measured: beyond it the noise could not be told from a bent line. */
const MOST_LIKENESS = 0.95;

/** Value of the line at `x`. */
export const lineAt = (line: RobustLine, x: number): number =>
  line.centreY + line.slope * (x - line.centreX);

/** Standard error of the line at `x`. */
export const lineErrorAt = (line: RobustLine, x: number): number =>
  Math.hypot(line.centreError, line.slopeError * (x - line.centreX));

/** The k-th smallest (from 0) of the first `count` values, which are put in another order: Hoare's selection. */
function select(values: Float64Array, count: number, k: number): number {
  let left = 0;
  let right = count - 1;
  while (left < right) {
    const pivot = values[(left + right) >> 1]!;
    let i = left;
    let j = right;
    while (i <= j) {
      while (values[i]! < pivot) i++;
      while (values[j]! > pivot) j--;
      if (i > j) break;
      const held = values[i]!;
      values[i++] = values[j]!;
      values[j--] = held;
    }
    if (k <= j) right = j;
    else if (k >= i) left = i;
    else break;
  }
  return values[k]!;
}

/** Median of the first `count` values, which are put in another order; the mean of the middle two of an even number. */
function median(values: Float64Array, count: number): number {
  const middle = count >> 1;
  const upper = select(values, count, middle);
  if (count % 2 === 1) return upper;
  // None ahead of the selected one is greater.
  let lower = values[0]!;
  for (let i = 1; i < middle; i++) if (values[i]! > lower) lower = values[i]!;
  return (upper + lower) / 2;
}

/**
 * Fits lines by iteratively reweighted least squares with Tukey's biweight and the median absolute
 * deviation as scale, the M-estimate of Holland & Welsch (Commun. Statist. A6, 1977). Its scratch
 * space is made once.
 */
export function robustLineFitter(capacity: number, cutoff = CUTOFF) {
  const scratch = new Float64Array(capacity);
  const weights = new Float64Array(capacity);

  /** @param start a line near the answer; without it a level one through the median. */
  return function fit(points: PointRange, prior: SlopePrior, start?: RobustLine): RobustLine {
    const { x, y, from, to } = points;
    const count = to - from;
    let centreX = start?.centreX ?? x[to - 1]!;
    let slope = start?.slope ?? prior.slope;
    let centreY = start?.centreY ?? 0;
    if (!start) {
      for (let i = 0; i < count; i++) scratch[i] = y[from + i]! - slope * (x[from + i]! - centreX);
      centreY = median(scratch, count);
    }
    let spread = 0;
    let slopeWeight = 0;
    for (let round = 0; round < MOST_ROUNDS; round++) {
      for (let i = 0; i < count; i++)
        scratch[i] = Math.abs(y[from + i]! - centreY - slope * (x[from + i]! - centreX));
      spread = Math.max(LEAST_SPREAD, MAD_TO_SPREAD * median(scratch, count));
      let sum = 0;
      let sumX = 0;
      let sumY = 0;
      for (let i = 0; i < count; i++) {
        const dx = x[from + i]! - centreX;
        const dy = y[from + i]! - centreY;
        const u = (dy - slope * dx) / (cutoff * spread);
        const weight = Math.abs(u) < 1 ? (1 - u * u) ** 2 : 0;
        weights[i] = weight;
        sum += weight;
        sumX += weight * dx;
        sumY += weight * dy;
      }
      const shiftX = sumX / sum;
      const shiftY = sumY / sum;
      let sxx = 0;
      let sxy = 0;
      for (let i = 0; i < count; i++) {
        const dx = x[from + i]! - centreX - shiftX;
        sxx += weights[i]! * dx * dx;
        sxy += weights[i]! * dx * (y[from + i]! - centreY - shiftY);
      }
      const known = (spread / prior.error) ** 2;
      slopeWeight = sxx + known;
      const nextSlope = (sxy + known * prior.slope) / slopeWeight;
      const moved =
        Math.abs(shiftY - slope * shiftX) + Math.abs(nextSlope - slope) * Math.sqrt(sxx / sum);
      centreX += shiftX;
      centreY += shiftY;
      slope = nextSlope;
      if (moved < spread * 1e-4) break;
    }
    for (let i = 0; i < count; i++)
      scratch[i] = y[from + i]! - centreY - slope * (x[from + i]! - centreX);
    const skew = median(scratch, count);
    const { variance, likeness } = noiseOf(points, cutoff, {
      centreX,
      centreY,
      slope,
      spread,
    });
    const widened = variance * ((1 + likeness) / (1 - likeness));
    return {
      centreX,
      centreY,
      slope,
      spread,
      skew,
      centreError: Math.sqrt(widened / count),
      slopeError: Math.sqrt(widened / slopeWeight),
      count,
    };
  };
}

/**
 * Variance that each point adds, from the influence of the residuals (Huber, Robust Statistics,
 * 1981, 7.6), and how much neighbours resemble each other (correlation at lag 1, 0 to 0.95).
 */
function noiseOf(
  { x, y, from, to }: PointRange,
  cutoff: number,
  line: Pick<RobustLine, 'centreX' | 'centreY' | 'slope' | 'spread'>,
) {
  let squares = 0;
  let products = 0;
  let slopes = 0;
  let before = 0;
  for (let i = from; i < to; i++) {
    const residual = y[i]! - line.centreY - line.slope * (x[i]! - line.centreX);
    const u2 = (residual / (cutoff * line.spread)) ** 2;
    const influence = u2 < 1 ? residual * (1 - u2) ** 2 : 0;
    if (u2 < 1) slopes += (1 - u2) * (1 - 5 * u2);
    squares += influence * influence;
    products += influence * before;
    before = influence;
  }
  const likeness = squares > 0 ? clamp(products / squares, 0, MOST_LIKENESS) : 0;
  return { variance: (squares * (to - from)) / Math.max(slopes, 1) ** 2, likeness };
}
