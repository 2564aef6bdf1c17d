/** Longest default half-width of the hit window, ms. Chosen, not measured; the player can set it. */
export const DEFAULT_REACH_MS = 100;
/** Longest default distance that counts as in time, ms. Chosen, not measured; the player can set it. */
export const DEFAULT_TOLERANCE_MS = 35;
/** Default tolerance as a share of a partial. Chosen, not measured. */
export const TOLERANCE_OF_PARTIAL = 1 / 3;

/** What the player has set; left out, the defaults follow the partial. */
export interface WindowSettings {
  readonly reachMs?: number | undefined;
  readonly toleranceMs?: number | undefined;
}

export interface HitWindow {
  /** How far a stroke may be from a note and still answer it, integer microseconds, edges closed. */
  readonly reachUs: number;
  /** How far still counts as in time, integer microseconds, edges closed. */
  readonly toleranceUs: number;
}

/**
 * The window of a note whose partial lasts `partialUs` microseconds. By default reach is
 * min(100 ms, one partial) and tolerance min(35 ms, a third of a partial); a set figure is taken as it is.
 *
 * @example hitWindow(60000) // => { reachUs: 60000, toleranceUs: 20000 }
 */
export function hitWindow(partialUs: number, settings: WindowSettings = {}): HitWindow {
  const reachMs = settings.reachMs;
  const toleranceMs = settings.toleranceMs;
  const reachUs = Math.max(
    1,
    Math.round(
      reachMs === undefined ? Math.min(DEFAULT_REACH_MS * 1000, partialUs) : reachMs * 1000,
    ),
  );
  const toleranceUs = Math.round(
    toleranceMs === undefined
      ? Math.min(DEFAULT_TOLERANCE_MS * 1000, partialUs * TOLERANCE_OF_PARTIAL)
      : toleranceMs * 1000,
  );
  return { reachUs, toleranceUs };
}
