type Column = Float64Array | Int32Array | Uint16Array | Uint8Array;

/** A wider column with the old one's values in front. @example [...enlarge(Uint8Array.of(7), new Uint8Array(3))] // => [7, 0, 0] */
export function enlarge<T extends Column>(old: T, wider: T): T {
  wider.set(old);
  return wider;
}
