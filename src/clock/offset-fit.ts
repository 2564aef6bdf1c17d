import {
  lineAt,
  lineErrorAt,
  robustLineFitter,
  type RobustLine,
  type SlopePrior,
} from './robust-line';
import { clamp } from '../time/whole';

/** What a clock map rests on: audio time minus performance time, ms, from noisy pairs. */
export interface OffsetFit {
  /** Takes in the offset that one pair told at performance time `atMs`; in order. */
  add(atMs: number, offsetMs: number): void;
  /** Forgets the pairs. The rate they told is kept as a guess where the same clock goes on. */
  clear(keepRate: boolean): void;
  /** Offset at performance time `atMs`; undefined without pairs. */
  offsetAt(atMs: number): number | undefined;
  /**
   * The true offset is within so many ms of the told one at `atMs` about 95 times in 100: the line's
   * own error, what a skew of the noise leaves open, and what a bend of the line did last.
   */
  uncertaintyAt(atMs: number): number | undefined;
  /** How much faster the audio clock runs, parts per million. */
  readonly ratePpm: number | undefined;
  /** Pairs behind the estimate. */
  readonly count: number;
  /** Robust spread of those pairs about the line, ms: 1.4826 times the median absolute deviation. */
  readonly spreadMs: number | undefined;
}

/** Two minutes at ten a second. Chosen by simulation: with stamps that scatter by 2 ms fewer pairs leave the line over 0.5 ms unsure. */
const MOST_PAIRS = 1280;
const OLDEST_MS = 128_000;
/** Chosen by simulation: shortest stretch that a line is laid through, and how much longer the next is. */
const FEWEST_PAIRS = 16;
const LONGER = 2;
/** Chosen by simulation: half-width, in standard errors, of the intervals that must have a point in common. */
const AGREEMENT = 2.5;
/** Normal distribution, 95 %, two-sided. */
const NORMAL_95 = 1.96;
/** Scatter assumed of the first few pairs, before their own can be told: the largest seen (headless Chromium). */
const FIRST_SPREAD_MS = 2;
/** Chosen: sample rates are off by tens of parts per million, at the worst by 200. */
const ANY_RATE: SlopePrior = { slope: 0, error: 200e-6 };
/** Chosen, not measured: a steeper line is noise. */
const MOST_RATE = 1000e-6;
/** Chosen, not measured: the same clock after a pause runs at its old rate to within this. */
const KEPT_RATE_ERROR = 10e-6;
/** Chosen: while there are few pairs each one counts, later the line is laid anew twice a second. */
const FIT_EACH_UNTIL = 64;
const FIT_EVERY = 5;

/**
 * A line through the pairs of up to two minutes: the longer the stretch, the less noise, but only as
 * long as the clocks keep their rate. So lines are laid through ever longer stretches, and the
 * longest whose interval still agrees with those of all shorter ones is taken (intersection of
 * confidence intervals: Goldenshluger & Nemirovski, Math. Methods Statist. 6, 1997).
 */
export function offsetFit(): OffsetFit {
  const fit = robustLineFitter(MOST_PAIRS);
  /** Room for as many again, so that old pairs are moved out of the way once in `MOST_PAIRS`. */
  const times = new Float64Array(2 * MOST_PAIRS);
  const offsets = new Float64Array(2 * MOST_PAIRS);
  let from = 0;
  let to = 0;
  let prior = ANY_RATE;
  let line: RobustLine | undefined;
  let sinceFit = 0;
  /** How far the newest end moved when the stretch was last made longer, ms. */
  let bendMs = 0;

  const layLine = (): RobustLine => {
    const nowMs = times[to - 1]!;
    let low = -Infinity;
    let high = Infinity;
    let chosen: RobustLine | undefined;
    let start: RobustLine | undefined;
    for (let length = FEWEST_PAIRS; ; length *= LONGER) {
      const stretch = { x: times, y: offsets, from: Math.max(from, to - length), to };
      const next = fit(stretch, prior, start);
      const middle = lineAt(next, nowMs);
      const half = AGREEMENT * lineErrorAt(next, nowMs);
      low = Math.max(low, middle - half);
      high = Math.min(high, middle + half);
      if (chosen && low > high) return chosen;
      bendMs = chosen ? Math.abs(middle - lineAt(chosen, nowMs)) : 0;
      chosen = start = next;
      if (length >= to - from) return chosen;
    }
  };
  const slopeOf = ({ slope }: RobustLine) => clamp(slope, -MOST_RATE, MOST_RATE);

  return {
    add(atMs, offsetMs) {
      if (to === times.length) {
        times.copyWithin(0, from, to);
        offsets.copyWithin(0, from, to);
        to -= from;
        from = 0;
      }
      times[to] = atMs;
      offsets[to] = offsetMs;
      to++;
      if (to - from > MOST_PAIRS) from++;
      while (times[from]! < atMs - OLDEST_MS) from++;
      if (to - from <= FIT_EACH_UNTIL || ++sinceFit >= FIT_EVERY) {
        line = layLine();
        sinceFit = 0;
      }
    },
    clear(keepRate) {
      if (!keepRate) prior = ANY_RATE;
      else if (line)
        prior = { slope: slopeOf(line), error: Math.hypot(KEPT_RATE_ERROR, line.slopeError) };
      from = to = sinceFit = 0;
      line = undefined;
    },
    offsetAt: (atMs) => line && line.centreY + slopeOf(line) * (atMs - line.centreX),
    uncertaintyAt(atMs) {
      if (!line) return undefined;
      const fewPairs = line.count < FEWEST_PAIRS ? FIRST_SPREAD_MS / Math.sqrt(line.count) : 0;
      return NORMAL_95 * Math.hypot(lineErrorAt(line, atMs), fewPairs, line.skew, bendMs);
    },
    get ratePpm() {
      return line && slopeOf(line) * 1e6;
    },
    get count() {
      return line?.count ?? 0;
    },
    get spreadMs() {
      return line?.spread;
    },
  };
}
