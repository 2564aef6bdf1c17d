import { partialCount } from '../../../../coach/evidence/partial-of-beat';
import type { Upcoming } from '../../../../live/upcoming';
import { capital } from '../../../../words/words';
import { whereWords } from './upcoming-words';

/**
 * Where the phrase comes to the player, or the player to the phrase, in sentences; none where neither is to come.
 *
 * @example moveSentences([{ countInBars: 1, bar: 9, atUs: 0 }]) // => ['A count-in at bar 9, then the phrase from its beginning at bar 10.']
 */
export const moveSentences = (upcoming: readonly Upcoming[]): string[] =>
  upcoming.flatMap((one) => {
    if ('countInBars' in one)
      return [
        `A count-in ${whereWords(one)}, then the phrase from its beginning at bar ${one.bar + one.countInBars}.`,
      ];
    if (!('waitPartials' in one)) return [];
    const { waitPartials, subdivision } = one;
    const count = partialCount(Math.abs(waitPartials), subdivision);
    const side = waitPartials < 0 ? 'earlier' : 'later';
    return [`${capital(whereWords(one))} the phrase waits for you, ${count} ${side}.`];
  });
