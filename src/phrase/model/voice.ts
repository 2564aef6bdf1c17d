/**
 * Every sound that can be written or struck. The order breaks ties between simultaneous notes and between rows of the
 * lane that share a place on the staff; the index into it is a voice's number in typed arrays.
 */
export const VOICES = [
  'splash',
  'china',
  'crash',
  'hi-hat open',
  'hi-hat closed',
  'ride bell',
  'ride',
  'cowbell',
  'tambourine',
  'hand clap',
  'wood block',
  'claves',
  'triangle',
  'shaker',
  'guiro',
  'vibraslap',
  'whistle',
  'cuica',
  'agogo',
  'timbale',
  'bongo',
  'conga',
  'high tom',
  'mid tom',
  'side stick',
  'snare',
  'floor tom',
  'bass drum',
  'hi-hat foot splash',
  'hi-hat pedal',
] as const;
export type Voice = (typeof VOICES)[number];

const NUMBERS: ReadonlyMap<string, number> = new Map(VOICES.map((voice, i) => [voice, i]));

/** Place of a voice in VOICES. @example voiceNumber('splash') // => 0 */
export const voiceNumber = (voice: Voice): number => NUMBERS.get(voice)!;

/**
 * Whether notes in a voice may be asked for a level. The foot moves the pedal at one weight: common practice, no source.
 *
 * @example asksLevel('hi-hat pedal') // => false
 */
export const asksLevel = (voice: Voice): boolean =>
  voice !== 'hi-hat pedal' && voice !== 'hi-hat foot splash';
