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
});
