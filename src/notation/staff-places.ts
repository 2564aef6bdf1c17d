import type { Voice } from '../phrase/model/voice';

/**
 * Where each voice is written: half staff spaces above the middle line. The drumset after Weinberg, "Guidelines for
 * Drumset Notation", Percussive Notes 32(3), 1994; the middle tom is its low-mid tom, the floor tom its
 * high floor tom. Splash and hand percussion: common practice, no
 * source.
 */
export const STAFF_PLACES: Readonly<Record<Voice, number>> = {
  splash: 7,
  china: 7,
  crash: 6,
  'hi-hat open': 5,
  'hi-hat closed': 5,
  'ride bell': 4,
  ride: 4,
  cowbell: 3,
  tambourine: 3,
  'hand clap': 3,
  'wood block': 3,
  claves: 4,
  triangle: 6,
  shaker: 5,
  guiro: 2,
  vibraslap: 3,
  whistle: 6,
  cuica: -2,
  agogo: 4,
  timbale: 3,
  bongo: 5,
  conga: 0,
  'high tom': 4,
  'mid tom': 2,
  'side stick': 1,
  snare: 1,
  'floor tom': -1,
  'bass drum': -3,
  'hi-hat foot splash': -5,
  'hi-hat pedal': -5,
};

/** Half staff spaces from the middle line to the outermost line. */
const OUTER_LINE = 4;

/**
 * Where short lines carry a head outside the staff.
 *
 * @example legerPlaces(7) // => [6]
 */
export function legerPlaces(place: number): readonly number[] {
  const lines: number[] = [];
  for (let at = OUTER_LINE + 2; at <= Math.abs(place); at += 2) lines.push(Math.sign(place) * at);
  return lines;
}
