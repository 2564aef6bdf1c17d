import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { describe, expect, it } from 'vitest';
import { createClockMap } from '../../src/clock/audio-clock-map';
import type { ClockReading } from '../../src/clock/clock-reading';
import { RESIDUAL_COUNT } from '../../src/clock/residual-ring';
import { longRunCount } from '../run-count';
import { seeded, simulatedClocks, type ClockHabits } from './simulated-clocks';

/** Timers are late by up to 10 ms, so that readings fall on either side of whole steps of 100. */
const START_MS = 10_095;
const POLL_MS = 100;
const MINUTES = 60_000;
/** Sounds are queued up to 1.5 s ahead, so the map is asked a second ahead of each reading. */
const AHEAD_MS = 1000;
/** In shorter sessions the beginning, of which less is known, is more than its share. */
const LONG_MINUTES = Math.max(24, longRunCount(90));
const SHORT_MINUTES = Math.max(9, longRunCount(30));

const percentile = (values: readonly number[], p: number) =>
  values.toSorted((a, b) => a - b)[Math.min(values.length - 1, Math.floor(values.length * p))]!;

/** A session, polled ten times a second. Errors from the first verified reading on, with the share that the uncertainty covered. */
function session(
  seed: number,
  ppm: number,
  habits: ClockHabits,
  spoil: (reading: ClockReading) => ClockReading | undefined = (reading) => reading,
  minutes = LONG_MINUTES,
) {
  const clocks = simulatedClocks(seed, ppm, habits);
  const map = createClockMap();
  const errors: number[] = [];
  let covered = 0;
  for (let n = 0; n < (minutes * MINUTES) / POLL_MS; n++) {
    const ms = START_MS + n * POLL_MS;
    const reading = spoil(clocks.readingAt(ms));
    if (reading) map.observe(reading);
    const { uncertaintyMs } = map.quality;
    if (uncertaintyMs === undefined) continue;
    const askedMs = ms + AHEAD_MS;
    const error = Math.abs(map.audioSecondsAt(askedMs)! - clocks.heardSecondsAt(askedMs)) * 1000;
    errors.push(error);
    if (error <= uncertaintyMs) covered++;
  }
  return {
    map,
    p50: percentile(errors, 0.5),
    p99: percentile(errors, 0.99),
    covered: covered / errors.length,
    readings: errors.length,
  };
}

/** Zeros for a few readings, no reading while the page is blocked, stamps that stand still, wild stamps. */
function withFaults(seed: number) {
  const random = seeded(seed);
  let zeros = 0;
  let blocked = 0;
  let held: ClockReading | undefined;
  return (reading: ClockReading): ClockReading | undefined => {
    if (random() < 0.002) zeros = 5;
    if (random() < 0.002) blocked = 8;
    if (random() < 0.01) held = reading;
    if (blocked-- > 0) return undefined;
    if (zeros-- > 0) return { ...reading, performanceMs: 0, contextSeconds: 0 };
    if (random() < 0.05)
      return { ...reading, contextSeconds: reading.contextSeconds - random() * 0.3 };
    const { performanceMs, contextSeconds } = held ?? reading;
    if (held && random() < 0.5) held = undefined;
    return { ...reading, performanceMs, contextSeconds };
  };
}

const slowly = (ms: number) =>
  ((5e-6 * 600_000) / (2 * Math.PI)) * Math.sin(ms / (600_000 / 6.283));
describe('the clock map while a player practises', () => {
  it.each<[string, number, number, number, ClockHabits]>([
    ['at 200 ppm', 101, SHORT_MINUTES, 200, {}],
    ['at -200 ppm', 102, SHORT_MINUTES, -200, {}],
    [
      'at a rate that wanders by 5 ppm over ten minutes',
      103,
      LONG_MINUTES,
      -90,
      { wanderMs: slowly },
    ],
  ])('stays within 0.5 ms at p99 %s, seed %i, %i minutes', (_name, seed, minutes, ppm, habits) => {
    const run = session(seed, ppm, habits, undefined, minutes);
    expect(run.p99).toBeLessThan(0.5);
    expect(run.covered).toBeGreaterThan(0.9);
    expect(Math.abs(run.map.quality.ratePpm! - ppm)).toBeLessThan(12);
  });

  it('stays within 0.5 ms at p99 with zeros, blocks, wild and standing stamps, seed 104', () => {
    const run = session(104, 120, {}, withFaults(104));
    expect(run.p99).toBeLessThan(0.5);
    expect(run.covered).toBeGreaterThan(0.9);
    expect(run.readings).toBeGreaterThan((0.95 * (LONG_MINUTES * MINUTES)) / POLL_MS);
    expect(run.map.quality.refused).toBeGreaterThan(3 * LONG_MINUTES);
  });

  it('is as exact as stamps told in steps of 2 ms are on average, seed 105', () => {
    const run = session(105, 60, { stepMs: 2 }, undefined, 5);
    expect(run.map.quality.resolution.stepMs).toBeCloseTo(2, 3);
    // The stamps of strokes are rounded down as well, by 1 ms on average: the map is that much ahead of the true clock.
    expect(Math.abs(run.p50 - 1)).toBeLessThan(0.4);
  });

  it('says that steps of 100 ms cannot be used, seed 106', () => {
    const { resolution } = session(106, 0, { stepMs: 100 }, undefined, 1).map.quality;
    expect(resolution.name).toBe('useless');
    expect(resolution.stepMs).toBeCloseTo(100, 3);
  });
});

describe('the uncertainty of the clock map', () => {
  const runs = longRunCount(300);

  it.each([5, 20, 60])(
    `after %i s covers the truth about as often as it says, 95 in 100, ${runs} seeds from 300 on`,
    (seconds) => {
      let covered = 0;
      for (let run = 0; run < runs; run++) {
        const clocks = simulatedClocks(300 + run, 400 * (run / runs - 0.5));
        const map = createClockMap();
        const endMs = START_MS + seconds * 1000;
        for (let ms = START_MS; ms <= endMs; ms += POLL_MS) map.observe(clocks.readingAt(ms));
        const errorMs = (map.audioSecondsAt(endMs)! - clocks.heardSecondsAt(endMs)) * 1000;
        if (Math.abs(errorMs) <= map.quality.uncertaintyMs!) covered++;
      }
      // Binomial at 95 %: with 100 trials 88 or fewer come four times in a thousand (SciPy 1.17) [C], with others by
      // three standard deviations.
      expect(covered).toBeGreaterThan(0.95 * runs - 3 * Math.sqrt(0.95 * 0.05 * runs));
      if (runs >= 100) expect(covered).toBeLessThan(runs);
    },
  );

  it('does not hide a wander of 8 ms within a minute, which no line can follow: seed 109', () => {
    const still = session(109, 0, {}, undefined, 5).map.quality.uncertaintyMs!;
    const wanderMs = (ms: number) => 8 * Math.sin(ms / (MINUTES / 6.283));
    const run = session(109, 0, { wanderMs }, undefined, 5);
    expect(run.p99).toBeLessThan(5);
    expect(run.map.quality.uncertaintyMs!).toBeGreaterThan(still);
  });
});

describe('the clock map when the offset steps', () => {
  /** A starved Chromium on a null sink loses its block of 10 ms now and then; between, stamps hold to 0.3 ms [measured]. */
  it('is back within 0.5 ms a second after a lost block, seed 107', () => {
    const random = seeded(1070);
    const lost: number[] = [];
    for (let ms = START_MS + 5000; ms < START_MS + 10 * MINUTES; ms += 5000 + random() * 20_000)
      lost.push(ms);
    const wanderMs = (ms: number) => -10 * lost.filter((at) => at <= ms).length;
    const clocks = simulatedClocks(107, 30, { wanderMs, noiseMs: (r) => (r() - 0.5) * 0.9 });
    const map = createClockMap();
    const errors: number[] = [];
    for (let ms = START_MS; ms < START_MS + 10 * MINUTES; ms += POLL_MS) {
      map.observe(clocks.readingAt(ms));
      expect(map.quality.name === 'verified' || ms < START_MS + 500).toBe(true);
      const isSettled = lost.every((at) => ms < at || ms > at + 1000) && ms > START_MS + 1000;
      if (isSettled)
        errors.push(Math.abs(map.audioSecondsAt(ms)! - clocks.heardSecondsAt(ms)) * 1000);
    }
    expect(errors.length).toBeGreaterThan(4000);
    expect(percentile(errors, 0.99)).toBeLessThan(0.5);
  });

  it('is within 1 ms five seconds after the context was suspended for a minute, in nineteen of twenty, seeds 200 to 219', () => {
    let within = 0;
    for (let seed = 200; seed < 220; seed++) {
      const clocks = simulatedClocks(seed, 180);
      const map = createClockMap();
      const restMs = MINUTES;
      const stopMs = START_MS + MINUTES;
      for (let ms = START_MS; ms < stopMs; ms += POLL_MS) map.observe(clocks.readingAt(ms));
      const held = clocks.readingAt(stopMs);
      for (let ms = stopMs; ms < stopMs + restMs; ms += POLL_MS)
        map.observe({ ...held, nowMs: ms });
      expect(map.quality.name).toBe('stalled');
      expect(map.quality.uncertaintyMs).toBeUndefined();
      for (let ms = stopMs + POLL_MS; ms < stopMs + 5000; ms += POLL_MS) {
        const reading = clocks.readingAt(ms);
        const performanceMs = reading.performanceMs + restMs;
        map.observe({ ...reading, nowMs: reading.nowMs + restMs, performanceMs });
      }
      expect(map.quality.name).toBe('verified');
      const errorMs =
        map.audioSecondsAt(stopMs + 5000 + restMs)! - clocks.heardSecondsAt(stopMs + 5000);
      if (Math.abs(errorMs) * 1000 < 1) within++;
    }
    expect(within).toBeGreaterThanOrEqual(19);
  });
});

const DAY_MINUTES = longRunCount(480);
const DAY_MS = DAY_MINUTES * MINUTES;

describe(`the clock map over ${DAY_MINUTES} minutes`, () => {
  it('keeps its memory and its exactness, seed 108', () => {
    setFlagsFromString('--expose-gc');
    const collect = runInNewContext('gc') as () => void;
    const heapAfter = () => {
      collect();
      return process.memoryUsage().heapUsed;
    };
    const clocks = simulatedClocks(108, 75);
    const map = createClockMap();
    let afterAnEighth = 0;
    for (let ms = START_MS; ms < START_MS + DAY_MS; ms += 500) {
      map.observe(clocks.readingAt(ms));
      if (ms === START_MS + DAY_MS / 8) afterAnEighth = heapAfter();
    }
    const grown = heapAfter() - afterAnEighth;
    expect(grown).toBeLessThan(300_000);
    expect(map.residuals()).toHaveLength(RESIDUAL_COUNT);
    const endMs = START_MS + DAY_MS;
    const errorMs = (map.audioSecondsAt(endMs)! - clocks.heardSecondsAt(endMs)) * 1000;
    expect(Math.abs(errorMs)).toBeLessThan(1);
  });
});
