import type { OffsetEstimator } from './rolling-median';

/** One source of pairs (performance time, audio time), both ms, with the estimate made from them. */
export interface OffsetTrack {
  /** Audio time must advance from pair to pair; whether `audioMs` does. */
  advances(audioMs: number): boolean;
  add(atMs: number, audioMs: number): void;
  /** Whether the pairs have run long enough, at a rate near 1, and up to now. */
  trustedAt(nowMs: number): boolean;
  clear(): void;
  readonly estimator: OffsetEstimator;
}

/** Chosen, not measured: pairs must run for this long before they are believed, and may be this old. */
const TRUST_AFTER_MS = 300;
const STALE_AFTER_MS = 1000;
/** Chosen, not measured: far above any real drift, far below the faults it is for (times divided by the sample rate). */
const MAX_RATE_ERROR = 0.2;
/** Chosen, not measured: so many pairs in a row this far off are a new offset (a resume, another device), not outliers. */
const JUMP_MS = 25;
const JUMP_PAIRS = 3;

interface Pair {
  readonly atMs: number;
  readonly audioMs: number;
}

const offsetOf = (pair: Pair): number => pair.audioMs - pair.atMs;

export function offsetTrack(estimator: OffsetEstimator): OffsetTrack {
  let first: Pair | undefined;
  let last: Pair | undefined;
  let aside: Pair[] = [];

  const accept = (pair: Pair) => {
    estimator.add(pair.atMs, offsetOf(pair));
    first ??= pair;
    last = pair;
  };
  const clear = () => {
    estimator.clear();
    first = last = undefined;
    aside = [];
  };
  return {
    estimator,
    clear,
    advances: (audioMs) => last === undefined || audioMs > last.audioMs,
    trustedAt(nowMs) {
      if (!first || !last || nowMs - last.atMs > STALE_AFTER_MS) return false;
      const spanMs = last.atMs - first.atMs;
      if (spanMs < TRUST_AFTER_MS) return false;
      return Math.abs((last.audioMs - first.audioMs) / spanMs - 1) <= MAX_RATE_ERROR;
    },
    add(atMs, audioMs) {
      const pair = { atMs, audioMs };
      const estimate = estimator.offsetAt(atMs);
      if (estimate === undefined || Math.abs(offsetOf(pair) - estimate) <= JUMP_MS) {
        aside = [];
        accept(pair);
        return;
      }
      const before = aside.at(-1);
      const agrees = before && Math.abs(offsetOf(before) - offsetOf(pair)) <= JUMP_MS;
      aside = agrees ? [...aside, pair] : [pair];
      if (aside.length < JUMP_PAIRS) return;
      const anew = aside;
      clear();
      anew.forEach(accept);
    },
  };
}
