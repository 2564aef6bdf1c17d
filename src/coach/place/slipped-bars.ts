/**
 * From which bar (1-based) to which the place was lost, both of them told.
 *
 * @example slippedBars(9, 9) // => 'in bar 9'
 */
export const slippedBars = (fromBar: number, toBar: number): string =>
  toBar > fromBar ? `from bar ${fromBar} to ${toBar}` : `in bar ${fromBar}`;
