import type { Upcoming } from '../../../live/upcoming';
import { mixedNumber } from '../../../time/beats';
import { bpmText } from '../../figures/format';

/** What changes next and where, in time order. */
export const upcomingWords = (upcoming: readonly Upcoming[]): string =>
  upcoming
    .map((one) => {
      const what = 'layer' in one ? `layer ${one.layer}` : `${bpmText(one.bpm)} bpm`;
      return `${what} ${whereWords(one)}`;
    })
    .join(', ');

/**
 * From which bar it changes, and where in it if not at its start.
 *
 * @example whereWords({ layer: 5, bar: 6, hasPickup: true, atUs: 0 }) // => 'from bar 6, after its pickup'
 */
export function whereWords(one: Upcoming): string {
  if ('layer' in one) return `from bar ${one.bar}${one.hasPickup ? ', after its pickup' : ''}`;
  return `from bar ${one.bar}${one.beat.equals(1) ? '' : ` beat ${mixedNumber(one.beat)}`}`;
}
