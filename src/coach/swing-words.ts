import type { PlayedSwing } from '../score/played-swing';
import { shortText } from '../words/words';

const ratio = (value: number): string => `${shortText(value, 2)} : 1`;

/**
 * The swing that was played in a sentence, none where it cannot be told.
 *
 * @example swingWords({ ratio: 1.5, interval: { lower: 1.4, upper: 1.6 }, written: 2, offbeats: 16 })[0] // => 'Off-beat eighths at 1.5 : 1, between 1.4 : 1 and 1.6 : 1 with 95 % certainty; written 2 : 1.'
 */
export function swingWords(played: PlayedSwing | undefined): string[] {
  if (!played) return [];
  const { lower, upper } = played.interval;
  const written = played.written === 1 ? 'straight' : ratio(played.written);
  return [
    `Off-beat eighths at ${ratio(played.ratio)}, between ${ratio(lower)} and ${ratio(upper)} with 95 % certainty; written ${written}.`,
  ];
}
