import { quantile } from 'simple-statistics';

/** One line of the table. */
export interface BenchRow {
  readonly name: string;
  /** What was shown to be right before anything was timed. */
  readonly asserted: string;
  readonly p50: string;
  /** The slow end, with its name: "p99 1.2 µs". */
  readonly tail: string;
  /** How many times the plain merge of the same arrays, unless a note says otherwise. */
  readonly ratio?: string;
  readonly aim?: string;
  readonly met?: boolean;
  /** What the figures do not say by themselves; told under the table. */
  readonly note?: string;
}

/** Three significant places are more than any of these figures can bear. */
const rounded = (value: number): string =>
  value >= 100 ? value.toFixed(0) : value >= 10 ? value.toFixed(1) : value.toFixed(2);

/** A length of time given in ms, in the unit that suits it. @example duration(0.0123) // => '12.3 µs' */
export const duration = (ms: number): string =>
  ms < 0.1 ? `${rounded(ms * 1000)} µs` : `${rounded(ms)} ms`;
/** @example times(7.2) // => '7.20×' */
export const times = (value: number): string => `${rounded(value)}×`;

export const p50 = (values: ArrayLike<number>): number => quantile(Array.from(values), 0.5);
export const p95 = (values: ArrayLike<number>): number => quantile(Array.from(values), 0.95);
export const p99 = (values: ArrayLike<number>): number => quantile(Array.from(values), 0.99);

/** How long each of `runs` calls took, ms, after as many as `warmUp` that are not counted. */
export function timed(runs: number, work: () => unknown, warmUp = 3): number[] {
  for (let run = 0; run < warmUp; run++) work();
  return Array.from({ length: runs }, () => {
    const from = performance.now();
    work();
    return performance.now() - from;
  });
}
