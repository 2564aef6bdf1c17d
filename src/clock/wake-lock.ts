/** Whether the screen is kept on at the moment. The browser may refuse, or let go on low battery. */
export interface ScreenWakeLock {
  readonly held: boolean;
  /** Lets the screen sleep again. */
  release(): void;
}

interface Page {
  readonly visibilityState: DocumentVisibilityState;
  addEventListener(type: 'visibilitychange', listener: () => void): void;
  removeEventListener(type: 'visibilitychange', listener: () => void): void;
}

/**
 * Keeps the screen on while somebody practises: a drummer touches neither mouse nor screen. The lock
 * is lost whenever the page is hidden and is asked for again when it comes back; a refusal is no
 * error, the screen then sleeps as the system pleases.
 */
export function keepScreenOn(
  wakeLock: Pick<WakeLock, 'request'> | null = navigator.wakeLock ?? null,
  page: Page = document,
): ScreenWakeLock {
  let sentinel: WakeLockSentinel | undefined;
  let wanted = true;

  const ask = async () => {
    if (!wakeLock || !wanted || page.visibilityState !== 'visible') return;
    if (sentinel && !sentinel.released) return;
    try {
      const granted = await wakeLock.request('screen');
      if (wanted) sentinel = granted;
      else await granted.release();
    } catch (error) {
      if (!(error instanceof DOMException)) throw error;
    }
  };
  const onVisibility = () => void ask();
  page.addEventListener('visibilitychange', onVisibility);
  void ask();
  return {
    get held() {
      return sentinel !== undefined && !sentinel.released;
    },
    release() {
      wanted = false;
      page.removeEventListener('visibilitychange', onVisibility);
      void sentinel?.release();
      sentinel = undefined;
    },
  };
}
