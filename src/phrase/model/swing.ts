import { beats, type Beats } from '../../time/beats';
import type { Meter } from '../../time/meter';
import type { SwingRatio } from './phrase';

/** Whether swing moves anything: it sounds where a quarter-note beat has off-beat eighths. */
export const swings = (meter: Meter, subdivision: number): boolean =>
  meter.unit === 4 && subdivision % 2 === 0;

/**
 * Where a partial of a beat sounds under a swing ratio: the beat's first half stretched evenly to
 * r / (1 + r), its second half pressed evenly into the rest, so that 2:1 puts the off-beat eighth on
 * the third triplet partial. `partial` counts from 0; the answer is exact, in beats from the beat.
 *
 * @example swungPartial(1, 2, beats(2)).toFraction() // => '2/3'
 */
export function swungPartial(partial: number, subdivision: number, ratio: SwingRatio): Beats {
  const written = beats(partial, subdivision);
  const long = ratio.div(ratio.add(1));
  return partial * 2 <= subdivision
    ? written.mul(2).mul(long)
    : long.add(written.mul(2).sub(1).mul(beats(1).sub(long)));
}

/**
 * A swing ratio from text, long part to short part, or undefined when it is none from 1:1 to 4:1.
 *
 * @example parseSwing('3:2')?.toFraction() // => '3/2'
 */
export function parseSwing(text: string): SwingRatio | undefined {
  const match = /^([1-9]\d{0,2}):([1-9]\d{0,2})$/.exec(text);
  if (!match) return undefined;
  const ratio = beats(Number(match[1]), Number(match[2]));
  return ratio.compare(1) >= 0 && ratio.compare(4) <= 0 ? ratio : undefined;
}

/** A swing, or 1:1 where there is none. */
export const straightOr = (swing: SwingRatio | undefined): SwingRatio => swing ?? beats(1);

/** @example swingText(beats(3, 2)) // => '3:2' */
export const swingText = (ratio: SwingRatio): string => `${ratio.n}:${ratio.d}`;
