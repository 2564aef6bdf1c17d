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

/**
 * An output 32 ms behind a clock that renders blocks of 10 ms, off by `ppm`, whose stamps scatter by
 * 2 ms with a tail to +9 ms: the sizes seen in a headless Chromium.
 */
export function simulatedClocks(seed: number, ppm = 0): SimulatedClocks {
  const random = seeded(seed);
  const heardSecondsAt = (ms: number) => (ms - 5000) * (1 + ppm * 1e-6) * 1e-3;
  return {
    heardSecondsAt,
    readingAt(nowMs) {
      const stampMs = nowMs - random() * 3;
      const tail = random() < 0.1 ? random() * 9e-3 : 0;
      const noise = (random() + random() + random() - 1.5) * 4e-3;
      const rendered = heardSecondsAt(nowMs) + 0.032;
      return {
        nowMs,
        currentSeconds: Math.ceil(rendered * 100) / 100 + 0.01,
        performanceMs: stampMs,
        contextSeconds: heardSecondsAt(stampMs) + noise + tail,
        outputLatency: 0.032,
        baseLatency: 0.01,
      };
    },
  };
}
