import { VOICES, voiceNumber, type Voice } from '../model/voice';

/** Where a voice is struck, from above: metres to the player's right and away from the player. */
export interface PadPlace {
  readonly x: number;
  readonly y: number;
}

/**
 * A right-handed kit of five drums as it is commonly set up, with hand percussion clamped above the bass drum;
 * the two pedals are among them. Chosen, not measured.
 */
export const PLACES: Readonly<Record<Voice, PadPlace>> = {
  splash: { x: 0, y: 0.75 },
  china: { x: 1, y: 0.7 },
  crash: { x: -0.45, y: 0.75 },
  'hi-hat open': { x: -0.4, y: 0.35 },
  'hi-hat closed': { x: -0.4, y: 0.35 },
  'ride bell': { x: 0.6, y: 0.65 },
  ride: { x: 0.6, y: 0.55 },
  cowbell: { x: 0.05, y: 0.6 },
  tambourine: { x: -0.15, y: 0.65 },
  'hand clap': { x: 0, y: 0.3 },
  'wood block': { x: 0.1, y: 0.65 },
  claves: { x: 0, y: 0.3 },
  triangle: { x: 0.05, y: 0.7 },
  shaker: { x: 0, y: 0.3 },
  guiro: { x: 0, y: 0.3 },
  vibraslap: { x: 0.15, y: 0.7 },
  whistle: { x: 0, y: 0.3 },
  cuica: { x: 0, y: 0.3 },
  agogo: { x: -0.05, y: 0.65 },
  timbale: { x: -0.65, y: 0.2 },
  bongo: { x: -0.55, y: 0.1 },
  conga: { x: 0.75, y: -0.1 },
  'high tom': { x: -0.1, y: 0.55 },
  'mid tom': { x: 0.25, y: 0.55 },
  'side stick': { x: -0.1, y: 0.25 },
  snare: { x: -0.1, y: 0.25 },
  'floor tom': { x: 0.5, y: 0.2 },
  'bass drum': { x: 0.25, y: 0.3 },
  'hi-hat foot splash': { x: -0.4, y: 0.3 },
  'hi-hat pedal': { x: -0.4, y: 0.3 },
};

/** Voices that are played with a foot; every other one is played with a hand. */
export const isFootVoice = (voice: Voice): boolean =>
  voice === 'bass drum' || voice === 'hi-hat pedal' || voice === 'hi-hat foot splash';

const APART = VOICES.map((from) =>
  VOICES.map((to) => Math.hypot(PLACES[from].x - PLACES[to].x, PLACES[from].y - PLACES[to].y)),
);

/** How far it is from voice to voice, metres. @example placesApart('snare', 'side stick') // => 0 */
export const placesApart = (from: Voice, to: Voice): number =>
  from === to ? 0 : APART[voiceNumber(from)]![voiceNumber(to)]!;
