import type { HistogramBin } from '../../../../clock/latency/offset-histogram';
import { offsetText } from '../../../figures/format';

/** Chosen: a steady player's bars do not fill the whole width. */
const LEAST_WIDTH_MS = 80;
/** About so many labels stand under the axis. */
const LABELS = 6;
const STEPS_MS = [10, 20, 50, 100, 200];

export interface HistogramScale {
  readonly fromMs: number;
  readonly toMs: number;
  readonly most: number;
  /** Where labels stand, ms. */
  readonly labelsMs: readonly number[];
}

/**
 * Room for all bins and the click at 0.
 *
 * @example histogramScale([{ fromMs: 10, toMs: 15, count: 3 }]).labelsMs // => [-40, -20, 0, 20, 40]
 */
export function histogramScale(bins: readonly HistogramBin[]): HistogramScale {
  const least = Math.min(0, ...bins.map(({ fromMs }) => fromMs));
  const most = Math.max(0, ...bins.map(({ toMs }) => toMs));
  const wanting = Math.max(0, LEAST_WIDTH_MS - (most - least)) / 2;
  const step =
    STEPS_MS.find((ms) => (most - least + 2 * wanting) / ms <= LABELS) ?? STEPS_MS.at(-1)!;
  const fromMs = Math.floor((least - wanting) / 10) * 10;
  const toMs = Math.ceil((most + wanting) / 10) * 10;
  const first = Math.ceil(fromMs / step) * step;
  const labelsMs = Array.from(
    { length: Math.floor((toMs - first) / step) + 1 },
    (_, i) => first + i * step,
  );
  return { fromMs, toMs, most: Math.max(1, ...bins.map(({ count }) => count)), labelsMs };
}

/**
 * The histogram in one sentence.
 *
 * @example histogramWords([{ fromMs: -5, toMs: 0, count: 1 }, { fromMs: 0, toMs: 5, count: 2 }]) // => '3 strokes from −5 to +5 ms of the click; most of them, 2, from 0 to +5 ms.'
 */
export function histogramWords(bins: readonly HistogramBin[]): string {
  const first = bins[0];
  const last = bins.at(-1);
  if (!first || !last) return 'No strokes to draw.';
  const all = bins.reduce((sum, { count }) => sum + count, 0);
  const peak = bins.reduce((best, bin) => (bin.count > best.count ? bin : best));
  return `${all} strokes from ${offsetText(first.fromMs)} to ${offsetText(last.toMs)} ms of the click; most of them, ${peak.count}, from ${offsetText(peak.fromMs)} to ${offsetText(peak.toMs)} ms.`;
}
