/** Clocks are coarse: a stamp this little ahead of now is no mistake. Chosen, not measured. */
const AHEAD_MS = 2;
/** A stamp this much older than the page was last awake is not believed. */
const STALE_MS = 1000;

/**
 * When a MIDI message came, milliseconds on the performance clock: its own stamp, or NaN when that
 * is missing, in the future or more than a second old, as some systems send it. A page that stood
 * still gets what waited with old stamps, so age counts from `awakeMs`, when it was last awake for sure.
 *
 * @example messageTime(3000, 9000, 3500) // => 3000
 */
export function messageTime(stampMs: number, nowMs: number, awakeMs = nowMs): number {
  const isBelieved =
    stampMs > 0 && stampMs <= nowMs + AHEAD_MS && Math.min(nowMs, awakeMs) - stampMs <= STALE_MS;
  return isBelieved ? stampMs : NaN;
}
