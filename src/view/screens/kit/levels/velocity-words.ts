import { velocitySummary } from '../../../../kit/velocity-summary';
import type { LevelBoundaries } from '../../../../kit/kit';
import { counted } from '../../../figures/number-words';

/**
 * A velocity curve in words.
 *
 * @example velocityWords([20, 30, 70, 110], { ghostMax: 50, accentMin: 95 }) // => 'four strokes from 20 to 110, half of them up to 50; in the ghost zone 2, taps 1, in the accent zone 1'
 */
export function velocityWords(
  velocities: readonly number[],
  { ghostMax, accentMin }: LevelBoundaries,
): string {
  const summary = velocitySummary(velocities);
  if (!summary) return 'no strokes yet';
  const { lowest, highest, quantiles } = summary;
  const ghosts = velocities.filter((velocity) => velocity <= ghostMax).length;
  const accents = velocities.filter((velocity) => velocity >= accentMin).length;
  const taps = velocities.length - ghosts - accents;
  return `${counted(velocities.length, 'stroke')} from ${lowest} to ${highest}, half of them up to ${Math.round(quantiles[2])}; in the ghost zone ${ghosts}, taps ${taps}, in the accent zone ${accents}`;
}

/** Where the levels of a pad come from. @example levelsFrom({ ghostMax: 40 }) // => 'learned' */
export const levelsFrom = (pad: { readonly ghostMax?: number; readonly accentMin?: number }) =>
  pad.ghostMax === undefined && pad.accentMin === undefined ? 'usual' : 'learned';
