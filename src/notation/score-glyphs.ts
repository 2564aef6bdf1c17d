import { clamp } from '../time/whole';

/** SMuFL code points (SMuFL 1.4, glyphnames.json) that a score line needs beside the heads and signs of the lane. */
export const SCORE_GLYPH = {
  clef: '\uE069',
  dot: '\uE1E7',
  accentBelow: '\uE4A1',
  restHalf: '\uE4E4',
  restQuarter: '\uE4E5',
  rest8: '\uE4E6',
  rest16: '\uE4E7',
  rest32: '\uE4E8',
  rest64: '\uE4E9',
  flag8: '\uE240',
  flag16: '\uE242',
  flag32: '\uE244',
  flag64: '\uE246',
} as const;

const RESTS = [
  SCORE_GLYPH.restQuarter,
  SCORE_GLYPH.rest8,
  SCORE_GLYPH.rest16,
  SCORE_GLYPH.rest32,
  SCORE_GLYPH.rest64,
];
const FLAGS = ['', SCORE_GLYPH.flag8, SCORE_GLYPH.flag16, SCORE_GLYPH.flag32, SCORE_GLYPH.flag64];
const METER_ZERO = 0xe080;
const TUPLET_ZERO = 0xe880;

/** The rest of a value; 0 flags is a quarter. */
export const restGlyph = (flags: number): string =>
  flags < 0 ? SCORE_GLYPH.restHalf : RESTS[Math.min(flags, RESTS.length - 1)]!;

/** The flags of a note that stands alone; stem up. */
export const flagGlyph = (flags: number): string => FLAGS[clamp(flags, 0, FLAGS.length - 1)]!;

/** A number in the digits of meters. */
export const meterDigits = (number: number | string): string => digits(number, METER_ZERO);

/** A number in the digits of tuplets. */
export const tupletDigits = (number: number | string): string => digits(number, TUPLET_ZERO);

const digits = (number: number | string, zero: number): string =>
  [...String(number)].map((digit) => String.fromCharCode(zero + Number(digit))).join('');
