/** Bars of at most. Chosen, not measured. */
const MOST_BAR = 1_000_000;

/**
 * Numbers of bars, 1-based, as somebody writes them; undefined where it is something else.
 *
 * @example barsOf('7, 9') // => [7, 9]
 */
export function barsOf(text: string): readonly number[] | undefined {
  const words = text.split(/[\s,;]+/).filter((word) => word !== '');
  const bars = words.map(Number);
  const isBar = (bar: number) => Number.isInteger(bar) && bar >= 1 && bar <= MOST_BAR;
  return bars.every(isBar) ? [...new Set(bars)].sort((a, b) => a - b) : undefined;
}
