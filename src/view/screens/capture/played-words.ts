import type { DecodedTake } from '../../../capture/capture-take';
import type { CapturingParts } from '../../app-context';
import { countOf } from '../../../words/words';
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

/** A take in a list of them. */
export const takeWords = (
  take: Pick<DecodedTake, 'at' | 'strokes' | 'fileName' | 'clickBpm' | 'isCutShort'>,
): string =>
  `${playedWhen(take.at)}, ${countOf(take.strokes.length, 'stroke')}, ${playedHow(take)}${take.isCutShort ? ', cut short' : ''}`;

/** What the capture is doing, in a few words. */
export function listeningWords({
  status,
  bar,
  strokes,
}: Pick<CapturingParts, 'status' | 'bar' | 'strokes'>): string {
  switch (status) {
    case 'idle':
      return 'Not listening';
    case 'starting':
      return 'Starting the sound';
    case 'counting in':
      return 'Counting in';
    case 'listening':
      if (strokes > 0) return 'Listening: play it several times round';
      return bar > 0 ? 'Play' : 'Play when you like';
  }
}
