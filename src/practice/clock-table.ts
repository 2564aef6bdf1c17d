/** What the clock map said while something ran: audio time, seconds, and performance time, ms; ascending. */
export type ClockTable = readonly (readonly [audioSeconds: number, performanceMs: number])[];

/**
 * Performance time, ms, of an audio time by a table: between two entries on the line through them,
 * outside on the line through the first or last two.
 *
 * @throws RangeError with fewer than two entries.
 * @example performanceMsIn([[1, 5000], [2, 6000]], 1.5) // => 5500
 */
export function performanceMsIn(table: ClockTable, audioSeconds: number): number {
  if (table.length < 2) throw new RangeError('a clock table needs two entries');
  let after = 1;
  while (after < table.length - 1 && table[after]![0] < audioSeconds) after++;
  const [fromSeconds, fromMs] = table[after - 1]!;
  const [toSeconds, toMs] = table[after]!;
  return fromMs + ((audioSeconds - fromSeconds) / (toSeconds - fromSeconds)) * (toMs - fromMs);
}
