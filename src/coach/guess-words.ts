import { justNoticeableMs } from './just-noticeable';

/**
 * A guess beside what was played: fine is within the 6 ms that listeners notice.
 *
 * @param meanMs stroke minus note, early negative; undefined where nothing is told of the time
 * @example guessWords('late', 12.4) // => 'Guessed: late. Played: 12 ms late on average.'
 */
export function guessWords(guess: 'early' | 'fine' | 'late', meanMs: number | undefined): string {
  const start = `Guessed: ${guess}.`;
  if (meanMs === undefined) return `${start} Nothing was played in time enough to compare.`;
  if (Math.abs(meanMs) < justNoticeableMs(0))
    return `${start} Played: fine, within ${justNoticeableMs(0)} ms of the click on average.`;
  const side = meanMs < 0 ? 'early' : 'late';
  return `${start} Played: ${Math.round(Math.abs(meanMs))} ms ${side} on average.`;
}
