import type { Limb } from '../phrase/model/limb';
import type { Voice } from '../phrase/model/voice';
import { isFootVoice } from '../phrase/playability/places';
import type { PlayedStroke } from './played-stroke';

/** What was struck on one partial. */
export interface StruckTogether {
  /** Of its main strokes, the mean, integer microseconds. */
  readonly timeUs: number;
  readonly feet: readonly Limb[];
  /** Voices of the hands' main strokes. */
  readonly hands: readonly Voice[];
  /** Grace notes ahead of the hand: 0, 1 or 2. */
  readonly graces: number;
}

/** Strokes nearer than this to the one before belong together. Chosen: 3.5 times what two strokes with a spread of 12 ms scatter. */
export const TOGETHER_US = 60_000;
/** A grace note has at most this share of its main note's velocity. Chosen. */
const FAINT = 0.7;

/**
 * Strokes in time order, gathered into what was struck together. A hand's faint stroke just ahead of a
 * louder one on the same drum is its grace note; everything else at once is a unison. Undefined in place
 * of what would need a third hand.
 */
export function struckTogether(strokes: readonly PlayedStroke[]): (StruckTogether | undefined)[] {
  const events: PlayedStroke[][] = [];
  strokes.forEach((stroke, i) => {
    const before = strokes[i - 1];
    if (before && stroke.timeUs - before.timeUs < TOGETHER_US) events.at(-1)!.push(stroke);
    else events.push([stroke]);
  });
  return events.map(eventOf);
}

function eventOf(strokes: readonly PlayedStroke[]): StruckTogether | undefined {
  const feet = strokes.filter(({ voice }) => isFootVoice(voice));
  const hands = strokes.filter(({ voice }) => !isFootVoice(voice));
  const graces = gracesOf(hands);
  const main = hands.slice(graces);
  if (main.length > 2) return undefined;
  const limbs = feet.map(({ voice }): Limb => (voice === 'bass drum' ? 'K' : 'F'));
  const struck = [...main, ...feet];
  return {
    timeUs: Math.round(struck.reduce((sum, { timeUs }) => sum + timeUs, 0) / struck.length),
    feet: [...new Set(limbs)],
    hands: main.map(({ voice }) => voice),
    graces,
  };
}

/** How many of the hands' strokes are grace notes of the last one. */
function gracesOf(hands: readonly PlayedStroke[]): number {
  const main = hands.at(-1);
  if (!main || hands.length < 2 || hands.length > 3) return 0;
  const before = hands.slice(0, -1);
  return before.every(
    ({ voice, velocity }) => voice === main.voice && velocity <= FAINT * main.velocity,
  )
    ? before.length
    : 0;
}
