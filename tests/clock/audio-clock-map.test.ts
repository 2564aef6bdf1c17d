import { describe, expect, it } from 'vitest';
import { createClockMap } from '../../src/clock/audio-clock-map';
import type { ClockReading } from '../../src/clock/clock-reading';
import { simulatedClocks, type SimulatedClocks } from './simulated-clocks';

const STEP_MS = 100;

/** Feeds readings and returns the absolute errors of the map, ms, one second ahead of each reading. */
function errorsMs(
  clocks: SimulatedClocks,
  fromMs: number,
  toMs: number,
  spoil: (reading: ClockReading, n: number) => ClockReading = (reading) => reading,
  map = createClockMap(),
): number[] {
  const errors: number[] = [];
  let n = 0;
  for (let ms = fromMs; ms < toMs; ms += STEP_MS) {
    map.observe(spoil(clocks.readingAt(ms), n++));
    if (ms < fromMs + 2000) continue;
    const ahead = ms + 1000;
    errors.push(Math.abs(map.audioSecondsAt(ahead)! - clocks.heardSecondsAt(ahead)) * 1000);
  }
  return errors;
}

const percentile = (values: number[], p: number) =>
  values.toSorted((a, b) => a - b)[Math.min(values.length - 1, Math.floor(values.length * p))]!;

describe('the clock map', () => {
  it('tells nothing before the first reading', () => {
    const map = createClockMap();
    expect(map.audioSecondsAt(1000)).toBeUndefined();
    expect(map.performanceMsAt(1)).toBeUndefined();
    expect(map.quality.name).toBe('none');
  });

  it('goes both ways, seed 21', () => {
    const clocks = simulatedClocks(21, 150);
    const map = createClockMap();
    for (let ms = 10_000; ms < 15_000; ms += STEP_MS) map.observe(clocks.readingAt(ms));
    for (const ms of [9000, 14_900, 20_000])
      expect(map.performanceMsAt(map.audioSecondsAt(ms)!)).toBeCloseTo(ms, 6);
    expect(map.quality.name).toBe('verified');
    expect(map.quality.pairs).toBe(50);
  });

  it('rests on the reported latency where stamps are zero, and says so, seed 31', () => {
    const clocks = simulatedClocks(31);
    const map = createClockMap();
    const zeros = (r: ClockReading) => ({ ...r, performanceMs: 0, contextSeconds: 0 });
    const errors = errorsMs(clocks, 10_000, 40_000, zeros, map);
    // currentTime leads by up to two blocks of 10 ms, and that is all the map can know.
    expect(percentile(errors, 1)).toBeLessThanOrEqual(20);
    expect(map.quality.name).toBe('unverified');
    expect(map.quality.uncertaintyMs).toBeUndefined();
    expect(map.quality.refused).toBe(300);
  });

  it('uses base latency where output latency is not told, and nothing where neither is', () => {
    const still = { performanceMs: 0, contextSeconds: 0 };
    const base = createClockMap();
    base.observe({ ...still, nowMs: 1000, currentSeconds: 5, outputLatency: 0, baseLatency: 0.25 });
    expect(base.audioSecondsAt(1000)).toBe(4.75);
    const neither = createClockMap();
    neither.observe({ ...still, nowMs: 1000, currentSeconds: 5, outputLatency: 0, baseLatency: 0 });
    expect(neither.audioSecondsAt(1000)).toBe(5);
  });

  it.each<[string, (r: ClockReading) => ClockReading]>([
    ['ahead of the clock', (r) => ({ ...r, contextSeconds: r.currentSeconds + 0.5 })],
    ['a second behind', (r) => ({ ...r, contextSeconds: r.currentSeconds - 1.2 })],
    ['divided by the sample rate', (r) => ({ ...r, contextSeconds: r.contextSeconds / 48_000 })],
    ['that never advance', (r) => ({ ...r, contextSeconds: 5 })],
  ])('does not believe stamps %s, seed 41', (_name, spoil) => {
    const map = createClockMap();
    const errors = errorsMs(simulatedClocks(41), 10_000, 30_000, spoil, map);
    expect(map.quality.name).toBe('unverified');
    expect(percentile(errors, 1)).toBeLessThanOrEqual(20);
  });

  it('is not moved by wild readings among good ones, seed 51', () => {
    const clocks = simulatedClocks(51);
    const everyFourth = (r: ClockReading, n: number) =>
      n % 4 === 0 ? { ...r, contextSeconds: r.contextSeconds - 0.3 } : r;
    expect(percentile(errorsMs(clocks, 10_000, 70_000, everyFourth), 0.99)).toBeLessThan(2);
  });

  it('says when the audio clock stands still, and finds the new offset after it moves, seed 61', () => {
    const before = simulatedClocks(61);
    const map = createClockMap();
    errorsMs(before, 10_000, 20_000, undefined, map);
    const held = before.readingAt(20_000);
    for (let ms = 20_000; ms < 25_000; ms += STEP_MS) map.observe({ ...held, nowMs: ms });
    expect(map.quality.name).toBe('stalled');
    const lostMs = 5000;
    const after: SimulatedClocks = {
      heardSecondsAt: (ms) => before.heardSecondsAt(ms - lostMs),
      readingAt(ms) {
        const r = before.readingAt(ms - lostMs);
        return { ...r, nowMs: ms, performanceMs: r.performanceMs + lostMs };
      },
    };
    const errors = errorsMs(after, 25_100, 35_000, undefined, map);
    expect(percentile(errors, 0.99)).toBeLessThan(2);
    expect(map.quality.name).toBe('verified');
  });

  it('follows a jump of the output within half a second, seed 71', () => {
    const clocks = simulatedClocks(71);
    const map = createClockMap();
    errorsMs(clocks, 10_000, 20_000, undefined, map);
    const moved = (r: ClockReading) => ({ ...r, contextSeconds: r.contextSeconds - 0.12 });
    for (let ms = 20_000; ms < 20_500; ms += STEP_MS) map.observe(moved(clocks.readingAt(ms)));
    const errorMs = (map.audioSecondsAt(20_500)! - clocks.heardSecondsAt(20_500) + 0.12) * 1000;
    expect(Math.abs(errorMs)).toBeLessThan(3);
  });

  it('starts afresh with a new context whose clock begins at zero', () => {
    const map = createClockMap();
    errorsMs(simulatedClocks(81), 10_000, 20_000, undefined, map);
    map.observe({
      nowMs: 30_000,
      currentSeconds: 0.05,
      performanceMs: 0,
      contextSeconds: 0,
      outputLatency: 0,
      baseLatency: 0.01,
    });
    expect(map.audioSecondsAt(30_000)).toBeCloseTo(0.04, 9);
  });

  // Worked by hand from the formula of Web Audio 1.1, 1.2.3: performance = stamp.performanceTime + (t − stamp.contextTime)·1000 [F].
  it('agrees with the formula of the Web Audio specification when stamps are exact', () => {
    const map = createClockMap();
    for (let n = 1; n <= 10; n++)
      map.observe({
        nowMs: 1000 + 100 * n,
        currentSeconds: 0.1 * n + 0.04,
        performanceMs: 1000 + 100 * n,
        contextSeconds: 0.1 * n,
        outputLatency: 0.03,
        baseLatency: 0.01,
      });
    expect(map.performanceMsAt(2.5)).toBeCloseTo(3500, 9);
    expect(map.audioSecondsAt(3500)).toBeCloseTo(2.5, 12);
  });
});
