export interface HistogramBin {
  /** Offsets from here on, ms ... */
  readonly fromMs: number;
  /** ... up to but not including this. */
  readonly toMs: number;
  readonly count: number;
}

/**
 * Offsets counted in bins of one width whose edges are multiples of it, from the first bin that holds
 * one to the last.
 *
 * @example offsetHistogram([-3, 1, 2], 5) // => [{ fromMs: -5, toMs: 0, count: 1 }, { fromMs: 0, toMs: 5, count: 2 }]
 */
export function offsetHistogram(offsetsMs: readonly number[], widthMs: number): HistogramBin[] {
  if (offsetsMs.length === 0) return [];
  const places = offsetsMs.map((offset) => Math.floor(offset / widthMs));
  const first = places.reduce((least, place) => Math.min(least, place));
  const last = places.reduce((most, place) => Math.max(most, place));
  const bins = Array.from({ length: last - first + 1 }, () => 0);
  for (const place of places) bins[place - first]!++;
  return bins.map((count, i) => ({
    fromMs: (first + i) * widthMs,
    toMs: (first + i + 1) * widthMs,
    count,
  }));
}
