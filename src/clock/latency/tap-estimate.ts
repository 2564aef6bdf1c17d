import { median } from 'simple-statistics';
import { circular } from './circular';
import { hodgesLehmann } from './hodges-lehmann';
import { robustSpread, spread } from '../../score/statistics/spread';
import { theilSen } from '../../score/statistics/theil-sen';
import { offsetHistogram, type HistogramBin } from './offset-histogram';
import { twoClusters } from './two-clusters';
import { countOf, decimalText } from '../../words/words';

/**
 * What playing to the click on one pad tells. It is one number for two things, the device and the
 * player's habit of playing ahead or behind, and no amount of strokes parts them: only a second
 * measurement does. Nor is it sharp. From n strokes with standard deviation s the 95 % interval is
 * about ±1.96·s/√n: 32 strokes with 15 ms give ±5 ms, and ±1 ms would take 860 of them. Whoever
 * wants the millisecond measures with the microphone.
 */
export interface DeviceAndHabit {
  /** Stroke minus click as heard by the present map, ms, early negative: device and habit together. */
  readonly deviceAndHabitMs: number;
  /** 95 %: it covers the truth at least that often, wild strokes or not. */
  readonly lowerMs: number;
  readonly upperMs: number;
  /** Standard deviation of the strokes behind it, ms. */
  readonly spreadMs: number;
  /** Strokes behind it, left out as warm-up, and left out as wild. */
  readonly strokes: number;
  readonly warmUp: number;
  readonly wild: number;
}

export type RepeatReason = 'spread' | 'wild strokes';
export type RefusalReason = 'too few' | 'two clusters' | 'drift' | 'ambiguous' | 'too far';

/** Every outcome has the histogram of the strokes after the warm-up, wild ones included. */
export type TapEstimate = { readonly histogram: readonly HistogramBin[] } & (
  | ({ readonly outcome: 'estimated' } & DeviceAndHabit)
  | { readonly outcome: 'repeat'; readonly why: RepeatReason; readonly sentence: string }
  | { readonly outcome: 'refused'; readonly why: RefusalReason; readonly sentence: string }
);

/** Strokes while the player finds the click. Chosen, not measured. */
export const WARM_UP_STROKES = 4;
/** Chosen, not measured: 15 left after a quarter of wild ones give an interval of about half a spread to each side. */
export const FEWEST_STROKES = 20;
/** Farther from the median than so many scaled median absolute deviations is wild. Chosen, not measured. */
const WILD_FROM = 3;
/** And never nearer than this: coarse clocks make many strokes agree to the digit. Chosen, not measured. */
const NEVER_WILD_MS = 8;
const MOST_WILD_SHARE = 0.25;
/** Chosen, not measured: above it 28 strokes leave more than ±9 ms. */
export const WIDEST_SPREAD_MS = 25;
/** No wired rig is so late; near half a beat nobody can tell which click a stroke belongs to. Chosen, not measured. */
const FARTHEST_MS = 250;
const BIN_MS = 5;

/**
 * @param offsetsMs stroke minus nearest click, in the order played, warm-up included, early negative.
 * @param beatMs time from click to click.
 * @example tapEstimate([0, 1, 2], 600).outcome // => 'refused'
 */
export function tapEstimate(offsetsMs: readonly number[], beatMs: number): TapEstimate {
  const kept = offsetsMs.slice(WARM_UP_STROKES);
  const centreMs = circular(kept, beatMs)?.mean ?? 0;
  const offsets = kept.map((offset) => centreMs + wrapped(offset - centreMs, beatMs));
  const histogram = offsetHistogram(offsets, BIN_MS);
  const refused = (why: RefusalReason, sentence: string): TapEstimate => ({
    outcome: 'refused',
    why,
    sentence,
    histogram,
  });
  const repeat = (why: RepeatReason, sentence: string): TapEstimate => ({
    outcome: 'repeat',
    why,
    sentence,
    histogram,
  });

  if (offsets.length < FEWEST_STROKES)
    return refused(
      'too few',
      `Only ${countOf(offsets.length, 'stroke')} came after the first ${WARM_UP_STROKES}, which do not count; play at least ${FEWEST_STROKES + WARM_UP_STROKES}.`,
    );
  const clusters = twoClusters(offsets);
  if (clusters)
    return refused(
      'two clusters',
      `The strokes fall into two groups, about ${ms(clusters.lowerMs)} and ${ms(clusters.upperMs)} from the click, and the data cannot tell which one is meant; strike once to every click, with one hand.`,
    );
  const drift = driftMs(offsets);
  if (drift !== undefined)
    return refused(
      'drift',
      `The strokes moved by ${ms(drift)} against the click from the first to the last; listen to the click for a few beats, then play along again.`,
    );
  const middle = median(offsets);
  const limitMs = Math.max(NEVER_WILD_MS, WILD_FROM * robustSpread(offsets)!);
  const steady = offsets.filter((offset) => Math.abs(offset - middle) <= limitMs);
  const spreadMs = spread(steady)!;
  if (spreadMs > WIDEST_SPREAD_MS)
    return repeat(
      'spread',
      `The strokes scatter by ${spreadMs.toFixed(0)} ms, more than the ${WIDEST_SPREAD_MS} ms that still give a usable figure; play once more, relaxed and to every click.`,
    );
  const wild = offsets.length - steady.length;
  if (wild > MOST_WILD_SHARE * offsets.length)
    return repeat(
      'wild strokes',
      `${wild} of ${offsets.length} strokes lie far from the others; play once more, one stroke to every click.`,
    );
  const { location, lower, upper } = hodgesLehmann(steady)!;
  if (Math.abs(location) + 2 * spreadMs >= beatMs / 2)
    return refused(
      'ambiguous',
      `The strokes lie about half a beat from the click (${ms(location)}), so early for the one and late for the other look alike; use a slower click.`,
    );
  if (Math.abs(location) > FARTHEST_MS)
    return refused(
      'too far',
      `The strokes lie ${ms(location)} from the click, more than ${FARTHEST_MS} ms; a rig this late cannot be corrected reliably. Use a cable in place of wireless sound, or another output.`,
    );
  return {
    outcome: 'estimated',
    deviceAndHabitMs: location,
    lowerMs: lower,
    upperMs: upper,
    spreadMs,
    strokes: steady.length,
    warmUp: WARM_UP_STROKES,
    wild,
    histogram,
  };
}

/** Moved by whole beats to between minus and plus half a beat. */
const wrapped = (offsetMs: number, beatMs: number): number =>
  offsetMs - Math.round(offsetMs / beatMs) * beatMs;

const ms = (value: number): string => `${decimalText(value, 0)} ms`;

/** Smaller changes over the run are let pass: a player is not a machine. Chosen, not measured. */
const LEAST_CHANGE_MS = 20;
/** Three standard errors: one steady run of 370 is called drifting, if its change is large enough too. */
const SURE_FROM = 3;

/**
 * How far offsets moved from the first to the last, ms, when they moved plainly one way; undefined
 * when they did not. The amount is by Theil and Sen, the certainty by the rank test of Mann (1945,
 * Econometrica 13:245-259) and Kendall.
 *
 * @example driftMs([0, 0, 0, 0]) // => undefined
 */
export function driftMs(offsetsMs: readonly number[]): number | undefined {
  const n = offsetsMs.length;
  const slope = theilSen(offsetsMs.map((y, x) => ({ x, y })));
  if (slope === undefined) return undefined;
  let score = 0;
  for (let j = 1; j < n; j++)
    for (let i = 0; i < j; i++) score += Math.sign(offsetsMs[j]! - offsetsMs[i]!);
  const deviation = Math.sqrt((n * (n - 1) * (2 * n + 5)) / 18);
  const change = slope * (n - 1);
  return Math.abs(score) / deviation >= SURE_FROM && Math.abs(change) >= LEAST_CHANGE_MS
    ? change
    : undefined;
}
