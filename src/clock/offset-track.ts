import { offsetFit, type OffsetFit } from './offset-fit';
import { residualRing, type ClockResidual } from './residual-ring';

/** One source of pairs (performance time, audio time), both ms, with the line laid through them. */
export interface OffsetTrack {
  /** Audio time must advance from pair to pair; whether `audioMs` does. */
  advances(audioMs: number): boolean;
  /** @param stepMs steps in which performance time is told: pairs may be off by as much. */
  add(atMs: number, audioMs: number, stepMs: number): void;
  /** Whether the pairs have run long enough, at a rate near 1, and up to now. */
  trustedAt(nowMs: number): boolean;
  /** Begins anew; `keepRate` where the same clock goes on after a pause. */
  clear(keepRate: boolean): void;
  readonly fit: OffsetFit;
  /** Latest pairs against the line as it was when they came, those set aside included. */
  residuals(): readonly ClockResidual[];
}

/** Chosen, not measured: pairs must run for this long before they are believed, and may be this old. */
const TRUST_AFTER_MS = 300;
const STALE_AFTER_MS = 1000;
/** Chosen, not measured: far above any real drift, far below the faults it is for (times divided by the sample rate). */
const MAX_RATE_ERROR = 0.2;
/**
 * So many pairs in a row this far to one side are a new offset (a resume, a block that was never
 * played, another device), not outliers. A starved headless Chromium jumps by its block of 10 ms.
 * Chosen: under that, and out of reach of three wild stamps.
 */
const JUMP_MS = 5;
const JUMP_SPREADS = 6;
const JUMP_PAIRS = 3;

interface Pair {
  readonly atMs: number;
  readonly audioMs: number;
}

const offsetOf = (pair: Pair): number => pair.audioMs - pair.atMs;

export function offsetTrack(): OffsetTrack {
  const fit = offsetFit();
  const ring = residualRing();
  let first: Pair | undefined;
  let last: Pair | undefined;
  let trustedBefore = false;
  let aside: Pair[] = [];

  const accept = (pair: Pair) => {
    fit.add(pair.atMs, offsetOf(pair));
    first ??= pair;
    last = pair;
  };
  const begin = (keepRate: boolean) => {
    fit.clear(keepRate);
    first = last = undefined;
    aside = [];
  };
  const trustedAt = (nowMs: number) => {
    if (!first || !last || nowMs - last.atMs > STALE_AFTER_MS) return false;
    const spanMs = last.atMs - first.atMs;
    if (spanMs < TRUST_AFTER_MS) return trustedBefore;
    return Math.abs((last.audioMs - first.audioMs) / spanMs - 1) <= MAX_RATE_ERROR;
  };
  return {
    fit,
    trustedAt,
    residuals: () => ring.toArray(),
    advances: (audioMs) => last === undefined || audioMs > last.audioMs,
    clear(keepRate) {
      begin(keepRate);
      ring.clear();
      trustedBefore = false;
    },
    add(atMs, audioMs, stepMs) {
      const pair = { atMs, audioMs };
      const estimate = fit.offsetAt(atMs);
      const residualMs = estimate === undefined ? 0 : offsetOf(pair) - estimate;
      if (estimate !== undefined) ring.add(atMs, residualMs);
      const jumpMs = Math.max(JUMP_MS, JUMP_SPREADS * (fit.spreadMs ?? 0), 2 * stepMs);
      if (Math.abs(residualMs) <= jumpMs) {
        aside = [];
        accept(pair);
        return;
      }
      const before = aside.at(-1);
      const agrees = before && Math.abs(offsetOf(before) - offsetOf(pair)) <= jumpMs;
      aside = agrees ? [...aside, pair] : [pair];
      if (aside.length < JUMP_PAIRS) return;
      const anew = aside;
      trustedBefore = trustedAt(last!.atMs);
      begin(false);
      anew.forEach(accept);
    },
  };
}
