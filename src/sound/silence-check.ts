/** Checks once that what was queued really made a sound. */
export interface SilenceCheck {
  /** Something will sound at `atSeconds` of audio time; only the first one is watched. */
  expect(atSeconds: number): void;
  /** True when the first sound should long have been heard and `recentPeak` is still nothing. Tells once. */
  isSilent(currentSeconds: number, recentPeak: () => number): boolean;
}

/** Chosen, not measured: within the half second that the peak looks back. */
const SILENT_AFTER_SECONDS = 0.5;

export function createSilenceCheck(): SilenceCheck {
  let expectedSeconds: number | undefined;
  let done = false;
  return {
    expect(atSeconds) {
      expectedSeconds = Math.min(expectedSeconds ?? Infinity, atSeconds);
    },
    isSilent(currentSeconds, recentPeak) {
      if (done || expectedSeconds === undefined) return false;
      if (currentSeconds < expectedSeconds + SILENT_AFTER_SECONDS) return false;
      done = true;
      return recentPeak() === 0;
    },
  };
}
