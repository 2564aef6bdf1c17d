/** How far one pair was from the map when it came, ms. Positive: audio time was ahead of the map. */
export interface ClockResidual {
  readonly performanceMs: number;
  readonly residualMs: number;
}

export interface ResidualRing {
  add(performanceMs: number, residualMs: number): void;
  clear(): void;
  /** Oldest first, at most `RESIDUAL_COUNT`; a new array at each call. */
  toArray(): ClockResidual[];
}

/** One minute at ten a second. Chosen: as much as a plot shows. */
export const RESIDUAL_COUNT = 600;

/** The latest residuals, in space that is made once. */
export function residualRing(): ResidualRing {
  const times = new Float64Array(RESIDUAL_COUNT);
  const values = new Float64Array(RESIDUAL_COUNT);
  let added = 0;
  return {
    add(performanceMs, residualMs) {
      times[added % RESIDUAL_COUNT] = performanceMs;
      values[added % RESIDUAL_COUNT] = residualMs;
      added++;
    },
    clear: () => void (added = 0),
    toArray() {
      const length = Math.min(added, RESIDUAL_COUNT);
      return Array.from({ length }, (_, n) => {
        const at = (added - length + n) % RESIDUAL_COUNT;
        return { performanceMs: times[at]!, residualMs: values[at]! };
      });
    },
  };
}
