/** Middle and worst of a set of times, ms; undefined without any. */
export interface Percentiles {
  readonly count: number;
  readonly p50: number | undefined;
  readonly p99: number | undefined;
  readonly max: number | undefined;
}

/**
 * Percentiles by nearest rank (NIST/SEMATECH e-Handbook 7.2.6.2 names it among the usual
 * definitions): each is one of the values. Sorts the array it is given.
 *
 * @example percentiles(Float64Array.of(3, 1, 2)) // => { count: 3, p50: 2, p99: 3, max: 3 }
 */
export function percentiles(values: Float64Array): Percentiles {
  values.sort();
  const at = (share: number) => values[Math.max(0, Math.ceil(share * values.length) - 1)];
  return { count: values.length, p50: at(0.5), p99: at(0.99), max: values.at(-1) };
}
