import { partialCount } from '../../../coach/evidence/partial-of-beat';
import type { Upcoming } from '../../../live/upcoming';
import { mixedNumber } from '../../../time/beats';
import { capital } from '../../../words/words';
import { bpmText } from '../../figures/format';

/** What changes next and where, in time order, in a line. */
export const upcomingWords = (upcoming: readonly Upcoming[]): string =>
  upcoming.map((one) => `${whatWords(one)} ${whereWords(one)}`).join(', ');

function whatWords(one: Upcoming): string {
  if ('layer' in one) return `layer ${one.layer}`;
  if ('bpm' in one) return `${bpmText(one.bpm)} bpm`;
  return 'countInBars' in one ? 'counts in' : 'waits for you';
}

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

/**
 * From which bar it changes, and where in it if not at its start.
 *
 * @example whereWords({ layer: 5, bar: 6, hasPickup: true, atUs: 0 }) // => 'from bar 6, after its pickup'
 */
export function whereWords(one: Upcoming): string {
  if ('layer' in one) return `from bar ${one.bar}${one.hasPickup ? ', after its pickup' : ''}`;
  if ('countInBars' in one) return `at bar ${one.bar}`;
  return `from bar ${one.bar}${one.beat.equals(1) ? '' : ` beat ${mixedNumber(one.beat)}`}`;
}
