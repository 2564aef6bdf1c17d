/** Watches whether audio time moves. */
export interface FreezeWatch {
  /** True when `currentSeconds` has not moved for `FROZEN_AFTER_MS`. */
  isFrozen(nowMs: number, currentSeconds: number): boolean;
}

/** Chosen, not measured: many times a rendered block, short against a beat. */
export const FROZEN_AFTER_MS = 300;

/** A context may say "running" and stand still: after sleep, a phone call, a device pulled out. */
export function createFreezeWatch(): FreezeWatch {
  let lastSeconds: number | undefined;
  let movedMs = 0;
  return {
    isFrozen(nowMs, currentSeconds) {
      if (currentSeconds !== lastSeconds) {
        lastSeconds = currentSeconds;
        movedMs = nowMs;
      }
      return nowMs - movedMs >= FROZEN_AFTER_MS;
    },
  };
}
