import type { ClockReading } from '../../src/clock/clock-reading';

/** A small seeded generator (mulberry32, public domain), so that a failing run can be repeated. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

export interface SimulatedClocks {
  /** What leaves the output at performance time `ms`, audio seconds: the truth. */
  heardSecondsAt(ms: number): number;
  readingAt(ms: number): ClockReading;
}

export interface ClockHabits {
  /** How far audio time has wandered beyond its steady rate by `ms`, ms. */
  readonly wanderMs?: (ms: number) => number;
  /** Error of one output stamp, ms. */
  readonly noiseMs?: (random: () => number) => number;
  /** Performance time is told in such steps, ms. */
  readonly stepMs?: number;
}

/**
 * Stamps scatter by 2.2 ms with a tail to +9.4 ms: the sizes seen over 30 s in a headless Chromium on
 * a null sink [measured]. The middle that the truth is told by is that of the nine tenths without the tail.
 */
export const skewedNoiseMs = (random: () => number): number =>
  random() < 0.1
    ? 1 + random() * 8.4
    : 1.35 * Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

/** An output 32 ms behind a clock that renders blocks of 10 ms, off by `ppm`. */
export function simulatedClocks(
  seed: number,
  ppm = 0,
  { wanderMs = () => 0, noiseMs = skewedNoiseMs, stepMs = 0.1 }: ClockHabits = {},
): SimulatedClocks {
  const random = seeded(seed);
  const heardSecondsAt = (ms: number) => ((ms - 5000) * (1 + ppm * 1e-6) + wanderMs(ms)) * 1e-3;
  const told = (ms: number) => Math.floor(ms / stepMs) * stepMs;
  return {
    heardSecondsAt,
    readingAt(nowMs) {
      const stampMs = nowMs - random() * 3;
      const readMs = nowMs + random() * 10;
      return {
        nowMs: told(readMs),
        currentSeconds: Math.ceil((heardSecondsAt(readMs) + 0.032) * 100) / 100 + 0.01,
        performanceMs: told(stampMs),
        contextSeconds: heardSecondsAt(stampMs) + noiseMs(random) * 1e-3,
        outputLatency: 0.032,
        baseLatency: 0.01,
      };
    },
  };
}
