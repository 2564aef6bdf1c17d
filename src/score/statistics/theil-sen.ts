import { median } from 'simple-statistics';

/**
 * Trend that outliers do not bend: the median of the slopes (y_j - y_i) / (x_j - x_i) over pairs of
 * points with different x. Theil 1950, Proc. KNAW 53; Sen 1968, JASA 63:1379-1389.
 *
 * Up to FULL_PAIRS points every pair counts (Sen), O(n²). Above, each point is paired only with the
 * one half the series later (Theil's incomplete method), O(n log n): as robust against a quarter of
 * wild points, a little noisier, and cheap enough to run over a whole evening's strokes.
 */

/** Chosen, not measured: 256 points are 32,640 slopes, a couple of milliseconds. */
export const FULL_PAIRS = 256;

export interface Point {
  readonly x: number;
  readonly y: number;
}

/**
 * Slope in units of y per unit of x, whatever the order of the points; undefined unless two points
 * differ in x.
 *
 * @example theilSen([{ x: 0, y: 0 }, { x: 1, y: 1 }, { x: 2, y: 1 }]) // => 0.5
 */
export function theilSen(points: readonly Point[]): number | undefined {
  const sorted = [...points].sort((a, b) => a.x - b.x || a.y - b.y);
  const slopes: number[] = [];
  const pair = (a: Point, b: Point) => {
    if (b.x > a.x) slopes.push((b.y - a.y) / (b.x - a.x));
  };
  if (sorted.length <= FULL_PAIRS) {
    sorted.forEach((b, j) => {
      for (let i = 0; i < j; i++) pair(sorted[i]!, b);
    });
  } else {
    const half = Math.ceil(sorted.length / 2);
    for (let i = 0; i + half < sorted.length; i++) pair(sorted[i]!, sorted[i + half]!);
  }
  return slopes.length > 0 ? median(slopes) : undefined;
}
