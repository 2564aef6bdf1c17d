import type { LaneMark } from '../../../live/lane-feed';
import type { Upcoming } from '../../../live/upcoming';
import { bpmText } from '../../figures/format';

/** What changes next and where, in time order. */
export const upcomingWords = (upcoming: readonly Upcoming[], marks: readonly LaneMark[]): string =>
  upcoming
    .map((one) => {
      const what = 'layer' in one ? `layer ${one.layer}` : `${bpmText(one.bpm)} bpm`;
      return `${what} ${whereWords(one, marks)}`;
    })
    .join(', ');

/** From which bar it changes. */
export function whereWords({ atUs }: Upcoming, marks: readonly LaneMark[]): string {
  const bar = marks.findLast(({ timeUs }) => timeUs <= atUs)?.bar;
  return bar === undefined ? 'soon' : `from bar ${bar}`;
}
