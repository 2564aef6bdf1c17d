import { mean, sampleStandardDeviation } from 'simple-statistics';

/** A mean and how far to trust it. */
export interface MeanOfUnits {
  readonly mean: number;
  /** Standard error, in the values' unit. */
  readonly error: number;
  /** Degrees of freedom of the error. */
  readonly df: number;
}

/**
 * Mean of the means of units (cycles, bars) with the error that these show, SD/√units: strokes within a unit go
 * together, and √strokes would promise too much (clustered errors; Moulton 1990, Rev. Econ. Stat. 72:334-338 [M]).
 * Every unit counts alike.
 *
 * @throws RangeError for fewer than two units.
 * @example meanOfUnits([4, -2, 6, 0]).mean // => 2
 */
export function meanOfUnits(unitMeans: readonly number[]): MeanOfUnits {
  const units = unitMeans.length;
  if (units < 2) throw new RangeError(`a mean shows its error by two units or more, got ${units}`);
  const values = [...unitMeans];
  return {
    mean: mean(values),
    error: sampleStandardDeviation(values) / Math.sqrt(units),
    df: units - 1,
  };
}
