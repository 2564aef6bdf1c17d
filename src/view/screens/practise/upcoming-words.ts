import type { LaneMark } from '../../../practice/lane-feed';
import type { Upcoming } from '../../../practice/session.svelte';
import { bpmText } from '../../figures/format';

/** What changes next and where. */
export function upcomingWords(upcoming: Upcoming, marks: readonly LaneMark[]): string {
  const { layer, bpm } = upcoming;
  const where = whereWords(upcoming, marks);
  return layer === undefined ? `${bpmText(bpm ?? 0)} bpm ${where}` : `layer ${layer} ${where}`;
}

/** From which bar it changes. */
export function whereWords({ atUs }: Upcoming, marks: readonly LaneMark[]): string {
  const bar = marks.findLast(({ timeUs }) => timeUs <= atUs)?.bar;
  return bar === undefined ? 'soon' : `from bar ${bar}`;
}
