import type { Timers } from '../../src/midi/timed-messages';

/** A clock that stands still until a test moves it, and then runs the timers that are due, each `lateMs` late. */
export function manualTimers(startMs: number, lateMs = 0): Timers & { advance(ms: number): void } {
  let now = startMs;
  let timers: { at: number; call: () => void }[] = [];
  return {
    nowMs: () => now,
    after(delayMs, call) {
      const timer = { at: now + delayMs + lateMs, call };
      timers.push(timer);
      return () => {
        timers = timers.filter((other) => other !== timer);
      };
    },
    advance(ms) {
      const end = now + ms;
      for (;;) {
        const next = timers.toSorted((a, b) => a.at - b.at)[0];
        if (!next || next.at > end) break;
        timers = timers.filter((other) => other !== next);
        now = Math.max(now, next.at);
        next.call();
      }
      now = end;
    },
  };
}
