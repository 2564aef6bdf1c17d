import { describe, expect, it } from 'vitest';
import { keepScreenOn } from '../../src/clock/wake-lock';

const settled = () => new Promise((resolve) => setTimeout(resolve, 0));

function fakePage() {
  const listeners = new Set<() => void>();
  return {
    visibilityState: 'visible' as DocumentVisibilityState,
    addEventListener: (_type: string, listener: () => void) => void listeners.add(listener),
    removeEventListener: (_type: string, listener: () => void) => void listeners.delete(listener),
    become(state: DocumentVisibilityState) {
      this.visibilityState = state;
      for (const listener of listeners) listener();
    },
    listeners,
  };
}

function fakeWakeLock(refuse = false) {
  const granted: { released: boolean; release(): Promise<void> }[] = [];
  return {
    granted,
    async request() {
      if (refuse) throw new DOMException('low battery', 'NotAllowedError');
      const sentinel = {
        released: false,
        release: async () => void (sentinel.released = true),
      };
      granted.push(sentinel);
      return sentinel as unknown as WakeLockSentinel;
    },
  };
}

describe('the screen wake lock', () => {
  it('is asked for at the start and let go at the end', async () => {
    const lock = fakeWakeLock();
    const page = fakePage();
    const screen = keepScreenOn(lock, page);
    await settled();
    expect(screen.held).toBe(true);
    screen.release();
    expect(lock.granted.map((s) => s.released)).toEqual([true]);
    expect(page.listeners.size).toBe(0);
  });

  it('is asked for again when the page comes back', async () => {
    const lock = fakeWakeLock();
    const page = fakePage();
    const screen = keepScreenOn(lock, page);
    await settled();
    lock.granted[0]!.released = true;
    page.become('hidden');
    await settled();
    expect(screen.held).toBe(false);
    page.become('visible');
    await settled();
    expect(lock.granted).toHaveLength(2);
    expect(screen.held).toBe(true);
  });

  it('lives with a refusal and with a browser that has none', async () => {
    const refused = keepScreenOn(fakeWakeLock(true), fakePage());
    const missing = keepScreenOn(null, fakePage());
    await settled();
    expect(refused.held).toBe(false);
    expect(missing.held).toBe(false);
  });

  it('gives back a lock that is granted after the end', async () => {
    const lock = fakeWakeLock();
    const screen = keepScreenOn(lock, fakePage());
    screen.release();
    await settled();
    expect(lock.granted.map((s) => s.released)).toEqual([true]);
  });
});
