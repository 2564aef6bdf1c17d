import type { Voice } from '../phrase/model/voice';

/** Where a voice stands on a right-handed kit as the player sees it: to the right, and away from the player. */
export interface KitSpot {
  readonly right: number;
  readonly away: number;
}

/**
 * Spots in units of about half a metre from the snare. Common practice, no source; only their order
 * and rough distances matter.
 */
const SPOTS: Partial<Record<Voice, KitSpot>> = {
  snare: { right: 0, away: 0 },
  'side stick': { right: 0, away: 0 },
  'hi-hat closed': { right: -0.9, away: 0.5 },
  'hi-hat open': { right: -0.9, away: 0.5 },
  crash: { right: -0.6, away: 1.4 },
  splash: { right: 0, away: 1.4 },
  'high tom': { right: 0, away: 0.9 },
  'mid tom': { right: 0.7, away: 0.9 },
  'floor tom': { right: 1.1, away: 0 },
  ride: { right: 1.4, away: 0.8 },
  'ride bell': { right: 1.4, away: 0.9 },
  china: { right: 1.8, away: 1.2 },
  cowbell: { right: 0.4, away: 1.1 },
};
const ELSEWHERE: KitSpot = { right: 0.5, away: 1 };

export const spotOf = (voice: Voice): KitSpot => SPOTS[voice] ?? ELSEWHERE;

/** How far a stick travels from one voice to another. @example travel('snare', 'snare') // => 0 */
export function travel(from: Voice, to: Voice): number {
  const a = spotOf(from);
  const b = spotOf(to);
  return Math.hypot(a.right - b.right, a.away - b.away);
}
