import type { DecodedTake } from '../../../capture/capture-take';
import { dayText } from '../../figures/day-text';
import { bpmText } from '../../figures/format';

const TIME = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' });

/** Who played, or the file's name. */
export const playedHow = ({
  fileName,
  clickBpm,
}: Pick<DecodedTake, 'fileName' | 'clickBpm'>): string =>
  fileName ?? (clickBpm === undefined ? 'without a click' : `to the click at ${bpmText(clickBpm)}`);

/** What a captured phrase is called until the player says otherwise. */
export const usualTitle = ({ fileName, at }: Pick<DecodedTake, 'fileName' | 'at'>): string =>
  fileName?.replace(/\.midi?$/i, '').trim() || `Played at ${playedWhen(at)}`;

/** Hour and minute where the player is, and the day unless it is today. */
export function playedWhen(iso: string, today = new Date()): string {
  const time = TIME.format(new Date(iso));
  return dayText(iso) === dayText(today.toISOString()) ? time : `${time} on ${dayText(iso)}`;
}
