import type { Upcoming } from '../../../../live/upcoming';
import { mixedNumber } from '../../../../time/beats';
import { bpmText } from '../../../figures/format';

/** What changes next and where, in time order, in a line. */
export const upcomingWords = (upcoming: readonly Upcoming[]): string =>
  upcoming.map((one) => `${whatWords(one)} ${whereWords(one)}`).join(', ');

function whatWords(one: Upcoming): string {
  if ('layer' in one) return `layer ${one.layer}`;
  if ('bpm' in one) return `${bpmText(one.bpm)} bpm`;
  return 'countInBars' in one ? 'counts in' : 'waits for you';
}

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
