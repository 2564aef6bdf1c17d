/** Least half-width of the common axis, ms. Chosen: a steady player's row is then neither a dot nor a bar. */
const LEAST_MS = 20;

export interface MeanAndSpread {
  readonly meanMs: number | undefined;
  readonly spreadMs: number | undefined;
}

/**
 * Half-width of one axis for all rows, ms: the next ten that holds every mean with its spread.
 *
 * @example axisHalfMs([{ meanMs: -12, spreadMs: 15 }]) // => 30
 */
export function axisHalfMs(places: readonly MeanAndSpread[]): number {
  const reach = places.map(({ meanMs = 0, spreadMs = 0 }) => Math.abs(meanMs) + spreadMs);
  return Math.max(LEAST_MS, Math.ceil(Math.max(0, ...reach) / 10) * 10);
}

/** Where on the axis, in percent from its early end. @example onAxis(0, 30) // => 50 */
export const onAxis = (ms: number, halfMs: number): number => 50 + (50 * ms) / halfMs;
