import type { ClockReading } from './clock-reading';
import { createResolutionWatch, type ClockResolution } from './clock-resolution';
import { offsetTrack } from './offset-track';
import type { ClockResidual } from './residual-ring';

export interface ClockQuality {
  /**
   * `none`: nothing known yet. `verified`: from the browser's own output stamps. `unverified`: the
   * stamps are missing or make no sense, so the map rests on the reported latency. `stalled`: the
   * audio clock stands still, and the map with it.
   */
  readonly name: 'none' | 'verified' | 'unverified' | 'stalled';
  /** Pairs behind the present estimate. */
  readonly pairs: number;
  /** Robust spread of those pairs about the line through them, ms; undefined before the first. */
  readonly spreadMs: number | undefined;
  /** Output stamps refused so far: zeros, ahead of the clock, far behind it, not advancing. */
  readonly refused: number;
  /**
   * What is heard is within so many ms of what the map says at the last reading, about 95 times in
   * 100, as far as the browser's stamps are true; undefined unless verified.
   */
  readonly uncertaintyMs: number | undefined;
  /** How much faster audio time runs than performance time, parts per million; undefined before the first pair. */
  readonly ratePpm: number | undefined;
  /** Steps in which the browser tells performance time. */
  readonly resolution: ClockResolution;
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
  /** The latest pairs, oldest first, each against the map as it was when the pair came: for a plot. */
  residuals(): readonly ClockResidual[];
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
 */
export function createClockMap(): ClockMap {
  const stamps = offsetTrack();
  const reported = offsetTrack();
  const steps = createResolutionWatch();
  let refused = 0;
  let last: ClockReading | undefined;
  let movedMs = 0;

  const isStalled = () => last !== undefined && last.nowMs - movedMs >= STALLED_AFTER_MS;
  const isVerified = () => last !== undefined && stamps.trustedAt(movedMs);
  const nameNow = (): ClockQuality['name'] =>
    isStalled() ? 'stalled' : isVerified() ? 'verified' : 'unverified';
  const track = () => (isVerified() ? stamps : reported);

  return {
    observe(reading) {
      const before = last;
      const wasStalled = isStalled();
      last = reading;
      steps.add(reading.nowMs);
      if (before && reading.currentSeconds === before.currentSeconds) return;
      const wentBack = before !== undefined && reading.currentSeconds < before.currentSeconds;
      if (wasStalled || wentBack) {
        stamps.clear(!wentBack);
        reported.clear(!wentBack);
      }
      movedMs = reading.nowMs;
      const { stepMs } = steps.resolution;
      const latency = reading.outputLatency || reading.baseLatency || 0;
      reported.add(reading.nowMs, (reading.currentSeconds - latency) * 1000, stepMs);
      const contextMs = reading.contextSeconds * 1000;
      if (stampMakesSense(reading) && stamps.advances(contextMs))
        stamps.add(reading.performanceMs, contextMs, stepMs);
      else refused++;
    },
    audioSecondsAt(performanceMs) {
      const offsetMs = track().fit.offsetAt(performanceMs);
      return offsetMs === undefined ? undefined : (performanceMs + offsetMs) / 1000;
    },
    performanceMsAt(audioSeconds) {
      const { fit } = track();
      let performanceMs = movedMs;
      for (let round = 0; round < 3; round++) {
        const offsetMs = fit.offsetAt(performanceMs);
        if (offsetMs === undefined) return undefined;
        performanceMs = audioSeconds * 1000 - offsetMs;
      }
      return performanceMs;
    },
    get quality() {
      const { fit } = track();
      const name = fit.count === 0 ? 'none' : nameNow();
      return {
        name,
        pairs: fit.count,
        spreadMs: fit.spreadMs,
        refused,
        uncertaintyMs: name === 'verified' ? fit.uncertaintyAt(movedMs) : undefined,
        ratePpm: fit.ratePpm,
        resolution: steps.resolution,
      };
    },
    residuals: () => track().residuals(),
  };
}
