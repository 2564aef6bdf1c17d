import { velocitySummary } from '../../../../kit/velocity-summary';
import type { LevelBoundaries } from '../../../../kit/kit';
import { countInWords } from '../../../../words/words';

/**
 * A velocity curve in words.
 *
 * @example velocityWords([20, 30, 70, 110], { ghostMax: 50, accentMin: 95 }) // => 'four strokes from 20 to 110, half of them up to 50; by the limits two ghosts, one tap, one accent'
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
  const levels = [
    countInWords(ghosts, 'ghost'),
    countInWords(velocities.length - ghosts - accents, 'tap'),
    countInWords(accents, 'accent'),
  ];
  const range =
    lowest === highest
      ? `at ${lowest}`
      : `from ${lowest} to ${highest}, half of them up to ${Math.round(quantiles[2])}`;
  return `${countInWords(velocities.length, 'stroke')} ${range}; by the limits ${levels.join(', ')}`;
}

/** Where the levels of a pad come from. @example levelsFrom({ ghostMax: 40 }) // => 'learned' */
export const levelsFrom = (pad: { readonly ghostMax?: number; readonly accentMin?: number }) =>
  pad.ghostMax === undefined && pad.accentMin === undefined ? 'usual' : 'learned';
