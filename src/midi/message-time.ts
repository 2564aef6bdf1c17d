/** Clocks are coarse: a stamp this little ahead of now is no mistake. Chosen, not measured. */
const AHEAD_MS = 2;
/** A stamp older than this is not believed. */
const STALE_MS = 1000;

/**
 * When a MIDI message came, milliseconds on the performance clock: its own stamp, or NaN when that
 * is missing, in the future or more than a second old, as some systems send it.
 */
export function messageTime(stampMs: number, nowMs: number): number {
  return stampMs > 0 && stampMs <= nowMs + AHEAD_MS && nowMs - stampMs <= STALE_MS ? stampMs : NaN;
}
