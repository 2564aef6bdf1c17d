import { VOICES, type Voice } from '../phrase/model/voice';

/** SMuFL code points (SMuFL 1.4, glyphnames.json); all of them are in the notation font. */
export const GLYPH = {
  head: '\uE0A4',
  x: '\uE0A9',
  circleX: '\uE0B3',
  diamond: '\uE0DB',
  plus: '\uE0AF',
  square: '\uE0B9',
  parenthesisLeft: '\uE0F5',
  parenthesisRight: '\uE0F6',
  accent: '\uE4A0',
  closed: '\uE5E5',
  open: '\uE5E7',
} as const;

/** A shape that the notation font, MusicXML and the engraver of the sheet all have: a triangle is in no font of the last. */
export type HeadShape = 'head' | 'x' | 'circleX' | 'diamond' | 'plus' | 'square';

export interface Notehead {
  readonly shape: HeadShape;
  readonly glyph: string;
  /** Sign over the head, or under it for a foot; empty for none. */
  readonly sign: string;
  readonly signBelow: boolean;
}

const plain = (shape: HeadShape): Notehead => ({
  shape,
  glyph: GLYPH[shape],
  sign: '',
  signBelow: false,
});

/**
 * Heads and hi-hat signs after Weinberg, "Guidelines for Drumset Notation", Percussive Notes 32(3), 1994, but for the
 * cowbell. Circled x for the china, and the heads of hand percussion (a plus for bells, a square for wood, a
 * diamond for what is shaken): common practice, no source. No two voices have place, head and sign in common.
 */
const HEADS: Readonly<Record<Voice, Notehead>> = {
  splash: plain('x'),
  china: plain('circleX'),
  crash: plain('x'),
  'hi-hat open': { ...plain('x'), sign: GLYPH.open },
  'hi-hat closed': { ...plain('x'), sign: GLYPH.closed },
  'ride bell': plain('diamond'),
  ride: plain('x'),
  cowbell: plain('plus'),
  tambourine: plain('diamond'),
  'hand clap': plain('x'),
  'wood block': plain('square'),
  claves: plain('square'),
  triangle: plain('plus'),
  shaker: plain('diamond'),
  guiro: plain('circleX'),
  vibraslap: plain('circleX'),
  whistle: plain('diamond'),
  agogo: plain('plus'),
  'side stick': plain('x'),
  'hi-hat foot splash': { ...plain('x'), sign: GLYPH.open, signBelow: true },
  'hi-hat pedal': plain('x'),
  cuica: plain('head'),
  timbale: plain('head'),
  bongo: plain('head'),
  conga: plain('head'),
  'high tom': plain('head'),
  'mid tom': plain('head'),
  snare: plain('head'),
  'floor tom': plain('head'),
  'bass drum': plain('head'),
};

/** How each voice is written, by its place in VOICES. */
export const NOTEHEADS: readonly Notehead[] = VOICES.map((voice) => HEADS[voice]);
