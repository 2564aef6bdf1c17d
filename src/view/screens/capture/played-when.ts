import { dayText } from '../../figures/day-text';

const TIME = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' });

/** Hour and minute where the player is, and the day unless it is today. */
export function playedWhen(iso: string, today = new Date()): string {
  const time = TIME.format(new Date(iso));
  return dayText(iso) === dayText(today.toISOString()) ? time : `${time} on ${dayText(iso)}`;
}
