import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Replay } from '../../../src/view/screens/log/replay.svelte';

describe('running through a take', () => {
  beforeEach(() => void vi.useFakeTimers());
  afterEach(() => void vi.useRealTimers());

  it('takes as long as the take, stops at its end and begins again', () => {
    const replay = new Replay(-500_000, 2_000_000);
    expect(replay.nowUs()).toBe(-500_000);
    replay.start();
    vi.advanceTimersByTime(1000);
    expect(replay.nowUs()).toBeCloseTo(500_000, -1);
    replay.stop();
    vi.advanceTimersByTime(5000);
    expect(replay.nowUs()).toBeCloseTo(500_000, -1);
    replay.start();
    vi.advanceTimersByTime(1500);
    expect(replay.running).toBe(false);
    expect(replay.nowUs()).toBe(2_000_000);
    replay.start();
    expect(replay.nowUs()).toBeCloseTo(-500_000, -1);
    replay.stop();
  });

  it('goes on from where it is moved, not beyond its ends', () => {
    const replay = new Replay(-500_000, 2_000_000);
    replay.start();
    replay.moveTo(1_500_000);
    expect(replay.running).toBe(false);
    vi.advanceTimersByTime(1000);
    expect(replay.nowUs()).toBe(1_500_000);
    replay.start();
    vi.advanceTimersByTime(500);
    expect([replay.running, replay.nowUs()]).toEqual([false, 2_000_000]);
    for (const [to, at] of [
      [-600_000, -500_000],
      [2_000_001, 2_000_000],
    ] as const) {
      replay.moveTo(to);
      expect(replay.nowUs()).toBe(at);
    }
  });
});
