import { NOTEHEADS } from './notehead';
import { voiceNumber } from '../phrase/model/voice';
import type { ScoreNote } from './score-columns';

/** Half the width of a head, staff spaces; where its stem stands. From the music font's published metadata (SMuFL 1.4). */
export const HEAD_HALF = 0.65;
/** How far above a head's middle its stem begins, staff spaces; the font's anchor stemUpSE. */
export const STEM_FROM: Readonly<Record<string, number>> = {
  '\uE0A4': 0.16,
  '\uE0A9': 0.424,
  '\uE0B3': 0,
  '\uE0DB': 0,
  '\uE0AF': 0,
  '\uE0B9': 0,
};

/**
 * For each note of a column, top of the staff first, whether its head stands on the far side of the stem because the
 * one below is too near.
 *
 * @example farSide([6, 5, 1]) // => [true, false, false]
 */
export function farSide(places: readonly number[]): readonly boolean[] {
  const far = places.map(() => false);
  for (let i = places.length - 2; i >= 0; i--)
    far[i] = places[i]! - places[i + 1]! < 2 && !far[i + 1];
  return far;
}

/** Where the stem of a column begins, staff spaces above the middle line. */
export function stemFoot(notes: readonly ScoreNote[]): number {
  const lowest = notes.at(-1)!;
  return lowest.place / 2 + STEM_FROM[NOTEHEADS[voiceNumber(lowest.voice)]!.glyph]!;
}
