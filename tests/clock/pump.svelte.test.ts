import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { startPump } from '../../src/clock/pump';

beforeEach(() => vi.useFakeTimers());
afterEach(() => vi.useRealTimers());

/** A worker that does what a test lets it. */
function handWorker() {
  const worker = {
    onmessage: undefined,
    onerror: undefined,
    terminate: vi.fn(),
  } as unknown as Worker;
  return { worker, tick: () => worker.onmessage!(new MessageEvent('message')) };
}

describe('the pump', () => {
  it('ticks by the page where no worker can be made', () => {
    let ticks = 0;
    const stop = startPump(
      () => ticks++,
      () => {
        throw new Error('forbidden');
      },
    );
    vi.advanceTimersByTime(1000);
    expect(ticks).toBe(10);
    stop();
    vi.advanceTimersByTime(1000);
    expect(ticks).toBe(10);
  });

  it('ticks by the page from a second on while the worker is silent, and by the worker once it speaks', () => {
    let ticks = 0;
    const { worker, tick } = handWorker();
    const stop = startPump(
      () => ticks++,
      () => worker,
    );
    vi.advanceTimersByTime(1099);
    expect(ticks).toBe(0);
    vi.advanceTimersByTime(1);
    expect(ticks).toBe(1);
    tick();
    vi.advanceTimersByTime(5000);
    expect(ticks).toBe(2);
    stop();
    tick();
    expect(ticks).toBe(2);
    expect(worker.terminate).toHaveBeenCalledTimes(1);
  });

  it('never ticks by both', () => {
    let ticks = 0;
    const { worker, tick } = handWorker();
    const stop = startPump(
      () => ticks++,
      () => worker,
    );
    tick();
    vi.advanceTimersByTime(5000);
    expect(ticks).toBe(1);
    stop();
  });
});
