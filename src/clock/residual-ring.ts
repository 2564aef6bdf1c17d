/** How far one pair was from the map when it came, ms. Positive: audio time was ahead of the map. */
export interface ClockResidual {
  readonly performanceMs: number;
  readonly residualMs: number;
}

export interface ResidualRing {
  add(performanceMs: number, residualMs: number): void;
  clear(): void;
  /** Oldest first, at most `RESIDUALS_KEPT`; a new array at each call. */
  toArray(): ClockResidual[];
}

/** One minute at ten a second. Chosen: as much as a plot shows. */
export const RESIDUALS_KEPT = 600;

/** The latest residuals, in space that is made once. */
export function residualRing(): ResidualRing {
  const times = new Float64Array(RESIDUALS_KEPT);
  const values = new Float64Array(RESIDUALS_KEPT);
  let added = 0;
  return {
    add(performanceMs, residualMs) {
      times[added % RESIDUALS_KEPT] = performanceMs;
      values[added % RESIDUALS_KEPT] = residualMs;
      added++;
    },
    clear: () => void (added = 0),
    toArray() {
      const length = Math.min(added, RESIDUALS_KEPT);
      return Array.from({ length }, (_, n) => {
        const at = (added - length + n) % RESIDUALS_KEPT;
        return { performanceMs: times[at]!, residualMs: values[at]! };
      });
    },
  };
}
