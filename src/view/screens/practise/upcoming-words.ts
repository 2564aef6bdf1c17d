import type { LaneMark } from '../../../practice/lane-feed';
import type { Upcoming } from '../../../practice/session.svelte';
import { bpmText } from '../../figures/format';

/** What changes next and where. */
export function upcomingWords(
  upcoming: Upcoming,
  marks: readonly LaneMark[],
  layerName: (layer: number) => string,
): string {
  const { layer, bpm, atUs } = upcoming;
  const bar = marks.findLast(({ timeUs }) => timeUs <= atUs)?.bar;
  const where = bar === undefined ? 'soon' : `from bar ${bar}`;
  return layer === undefined
    ? `${bpmText(bpm ?? 0)} bpm ${where}`
    : `layer ${layer}, ${layerName(layer)}, ${where}`;
}
