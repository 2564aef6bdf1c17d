import { wilson, type Interval } from '../score/statistics/wilson';
import { countOf, decimalText } from '../words/words';
import type { Certainty } from './evidence/certainty';

/** Without a sign, and never 0: what is told at all is something. @example amountText(-0.2, 'ms') // => '1 ms' */
export const amountText = (value: number, unit: string): string =>
  `${Math.max(1, Math.round(Math.abs(value)))} ${unit}`;

/** @example sideText(-3) // => 'early' */
export const sideText = (value: number): string => (value < 0 ? 'early' : 'late');

/** @example besideRest(-3) // => 'ahead of the rest' */
export const besideRest = (ms: number): string =>
  ms < 0 ? 'ahead of the rest' : 'behind the rest';

/** What a mean rests on, and where it lies. */
export function certaintyWords({ strokes, bars, interval }: Certainty, unit: string): string {
  return `${countOf(strokes, 'stroke')} of ${countOf(bars, 'bar')}; ${betweenWords(interval, unit)}.`;
}

/** The share of all that would be played like this, not only of these. */
export const shareWords = (times: number, of: number, what: string): string => {
  const { lower, upper } = wilson(times, of)!;
  return `${times} of ${of} ${what}; ${betweenWords({ lower: 100 * lower, upper: 100 * upper }, '%')}.`;
};

/** Whole figures, or tenths where these are near each other; the smaller first, with signs only where these differ. */
export function betweenWords({ lower, upper }: Interval, unit: string): string {
  const digits = upper - lower < 3 ? 1 : 0;
  const ends = upper <= 0 ? [-upper, -lower] : [lower, upper];
  const [from, to] = ends.map((end) => decimalText(end, digits));
  return `between ${from} and ${to} ${unit} with 95 % certainty`;
}
