import type { HeadShape } from '../notehead';

/** Note types by flags, from a whole note at -2 on (MusicXML 4.0, note-type-value). */
const TYPES = ['whole', 'half', 'quarter', 'eighth', '16th', '32nd', '64th', '128th', '256th'];

/** @example noteType(2) // => '16th' */
export const noteType = (flags: number): string => TYPES[flags + 2]!;

/** Heads as MusicXML 4.0 names them (notehead-value). */
export const HEAD_NAMES: Readonly<Record<HeadShape, string>> = {
  head: 'normal',
  x: 'x',
  circleX: 'circle-x',
  diamond: 'diamond',
  plus: 'cross',
  square: 'square',
};

const STEPS = 'CDEFGAB';
/** B4, the middle line of a staff read as with a treble clef, in steps from C0. */
const MIDDLE_LINE = 34;

/** Step and octave of a place in half spaces above the middle line. @example displayPitch(1) // => { step: 'C', octave: 5 } */
export function displayPitch(place: number): { readonly step: string; readonly octave: number } {
  const steps = MIDDLE_LINE + place;
  return { step: STEPS[steps % 7]!, octave: Math.floor(steps / 7) };
}

/** The place of a step and octave, in half spaces above the middle line; undefined where they are none. @example displayPlace('F', 4) // => -3 */
export function displayPlace(step: string, octave: number): number | undefined {
  const at = STEPS.indexOf(step);
  return step.length === 1 && at >= 0 && Number.isInteger(octave)
    ? 7 * octave + at - MIDDLE_LINE
    : undefined;
}
