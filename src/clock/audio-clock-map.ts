import type { ClockReading } from './clock-reading';
import { offsetTrack } from './offset-track';
import { rollingMedian, type OffsetEstimator } from './rolling-median';

export interface ClockQuality {
  /**
   * `none`: nothing known yet. `verified`: from the browser's own output stamps. `unverified`: the
   * stamps are missing or make no sense, so the map rests on the reported latency. `stalled`: the
   * audio clock stands still, and the map with it.
   */
  readonly name: 'none' | 'verified' | 'unverified' | 'stalled';
  /** Pairs behind the present estimate. */
  readonly pairs: number;
  /** Robust spread of those pairs, ms; undefined before the first. */
  readonly spreadMs: number | undefined;
  /** Output stamps refused so far: zeros, ahead of the clock, far behind it, not advancing. */
  readonly refused: number;
}

/**
 * Map between the two clocks: an instant of audio time, and the performance time at which that
 * instant is heard. Both directions are undefined before the first reading.
 */
export interface ClockMap {
  /** Takes a reading in; about ten a second, in order. */
  observe(reading: ClockReading): void;
  /** Audio time, seconds, of the sound that is heard at `performanceMs`. */
  audioSecondsAt(performanceMs: number): number | undefined;
  /** Performance time, ms, at which the sound of audio time `audioSeconds` is heard. */
  performanceMsAt(audioSeconds: number): number | undefined;
  readonly quality: ClockQuality;
}

/** Chosen, not measured: no output is a whole second behind (Web Audio: currentTime is ahead of contextTime). */
const MAX_LAG_SECONDS = 1;
/** Chosen, not measured: longer than any block of rendering or rounding of currentTime. */
const STALLED_AFTER_MS = 200;

/** The stamp of a reading is plausible by itself. */
function stampMakesSense(reading: ClockReading): boolean {
  const lagSeconds = reading.currentSeconds - reading.contextSeconds;
  return (
    reading.performanceMs > 0 &&
    reading.contextSeconds > 0 &&
    lagSeconds >= 0 &&
    lagSeconds < MAX_LAG_SECONDS &&
    Math.abs(reading.nowMs - reading.performanceMs) < MAX_LAG_SECONDS * 1000
  );
}

/**
 * A clock map. Output stamps that make sense carry it; where there are none,
 * `currentTime − (outputLatency || baseLatency || 0)` does, and the quality says `unverified`.
 *
 * @param makeEstimator one estimator is made for the stamps and one for the reported latency.
 */
export function createClockMap(makeEstimator: () => OffsetEstimator = rollingMedian): ClockMap {
  const stamps = offsetTrack(makeEstimator());
  const reported = offsetTrack(makeEstimator());
  let refused = 0;
  let last: ClockReading | undefined;
  let movedMs = 0;

  const isStalled = () => last !== undefined && last.nowMs - movedMs >= STALLED_AFTER_MS;
  const isVerified = () => last !== undefined && stamps.trustedAt(movedMs);
  const nameNow = (): ClockQuality['name'] =>
    isStalled() ? 'stalled' : isVerified() ? 'verified' : 'unverified';
  const estimator = () => (isVerified() ? stamps : reported).estimator;

  return {
    observe(reading) {
      const before = last;
      const wasStalled = isStalled();
      last = reading;
      if (before && reading.currentSeconds === before.currentSeconds) return;
      if (before && (wasStalled || reading.currentSeconds < before.currentSeconds)) {
        stamps.clear();
        reported.clear();
      }
      movedMs = reading.nowMs;
      const latency = reading.outputLatency || reading.baseLatency || 0;
      reported.add(reading.nowMs, (reading.currentSeconds - latency) * 1000);
      const contextMs = reading.contextSeconds * 1000;
      if (stampMakesSense(reading) && stamps.advances(contextMs))
        stamps.add(reading.performanceMs, contextMs);
      else refused++;
    },
    audioSecondsAt(performanceMs) {
      const offsetMs = estimator().offsetAt(performanceMs);
      return offsetMs === undefined ? undefined : (performanceMs + offsetMs) / 1000;
    },
    performanceMsAt(audioSeconds) {
      const current = estimator();
      let performanceMs = movedMs;
      for (let round = 0; round < 3; round++) {
        const offsetMs = current.offsetAt(performanceMs);
        if (offsetMs === undefined) return undefined;
        performanceMs = audioSeconds * 1000 - offsetMs;
      }
      return performanceMs;
    },
    get quality() {
      const { count, spreadMs } = estimator();
      return { name: count === 0 ? 'none' : nameNow(), pairs: count, spreadMs, refused };
    },
  };
}
