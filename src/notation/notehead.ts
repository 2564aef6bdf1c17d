import { VOICES, type Voice } from '../phrase/model/voice';

/** SMuFL code points (SMuFL 1.4, glyphnames.json); all of them are in the notation font. */
export const GLYPH = {
  head: '\uE0A4',
  x: '\uE0A9',
  circleX: '\uE0B3',
  diamond: '\uE0DB',
  triangle: '\uE0BE',
  parenthesisLeft: '\uE0F5',
  parenthesisRight: '\uE0F6',
  accent: '\uE4A0',
  closed: '\uE5E5',
  open: '\uE5E7',
} as const;

export interface Notehead {
  readonly glyph: string;
  /** Sign over the head, or under it for a foot; empty for none. */
  readonly sign: string;
  readonly signBelow: boolean;
}

const plain = (glyph: string): Notehead => ({ glyph, sign: '', signBelow: false });

/**
 * Heads and hi-hat signs after Weinberg, "Guidelines for Drumset Notation", Percussive Notes 32(3),
 * 1994. Circled x for the china, and the heads of hand percussion: common practice, no source.
 */
const HEADS: Readonly<Record<Voice, Notehead>> = {
  splash: plain(GLYPH.x),
  china: plain(GLYPH.circleX),
  crash: plain(GLYPH.x),
  'hi-hat open': { glyph: GLYPH.x, sign: GLYPH.open, signBelow: false },
  'hi-hat closed': { glyph: GLYPH.x, sign: GLYPH.closed, signBelow: false },
  'ride bell': plain(GLYPH.diamond),
  ride: plain(GLYPH.x),
  cowbell: plain(GLYPH.triangle),
  tambourine: plain(GLYPH.triangle),
  'hand clap': plain(GLYPH.x),
  'wood block': plain(GLYPH.triangle),
  claves: plain(GLYPH.x),
  triangle: plain(GLYPH.triangle),
  shaker: plain(GLYPH.x),
  guiro: plain(GLYPH.x),
  vibraslap: plain(GLYPH.circleX),
  whistle: plain(GLYPH.diamond),
  agogo: plain(GLYPH.triangle),
  'side stick': plain(GLYPH.x),
  'hi-hat foot splash': { glyph: GLYPH.x, sign: GLYPH.open, signBelow: true },
  'hi-hat pedal': plain(GLYPH.x),
  cuica: plain(GLYPH.head),
  timbale: plain(GLYPH.head),
  bongo: plain(GLYPH.head),
  conga: plain(GLYPH.head),
  'high tom': plain(GLYPH.head),
  'mid tom': plain(GLYPH.head),
  snare: plain(GLYPH.head),
  'floor tom': plain(GLYPH.head),
  'bass drum': plain(GLYPH.head),
};

/** How each voice is written, by its place in VOICES. */
export const NOTEHEADS: readonly Notehead[] = VOICES.map((voice) => HEADS[voice]);
