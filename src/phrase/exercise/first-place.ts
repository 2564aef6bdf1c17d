import { remainder } from '../../time/whole';
import type { Excerpt } from './excerpt-words';

/**
 * The same stretch where it comes first, with all of it after bar 1 beat 1; `round` is after how many partials the layer
 * has come round, Infinity where that is beyond counting.
 *
 * @example firstPlace({ from: 20, to: 35 }, 16) // => { from: 4, to: 19 }
 */
export function firstPlace({ from, to }: Excerpt, round: number): Excerpt {
  if (round === Infinity) return { from: Math.max(0, from), to };
  const start = remainder(from, round);
  return { from: start, to: start + to - from };
}
