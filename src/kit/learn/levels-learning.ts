import type { KitMessage } from '../kit-decoder';
import { STROKE } from '../kit-reader';
import type { LevelStrokes } from './learn-levels';
import { GENUINE } from '../pad-fault';
import type { Level } from '../../phrase/model/level';
import { asksLevel, VOICES } from '../../phrase/model/voice';

/** Strokes asked for at each level. Chosen, not measured: enough for one slip to do no harm. */
export const STROKES_A_LEVEL = 6;

/** Which of the strokes each level has. */
const KEYS = { ghost: 'ghosts', tap: 'taps', accent: 'accents' } as const;
const ORDER: readonly Level[] = ['ghost', 'tap', 'accent'];

/** How far the player has come on one pad. Every stroke gives a new one. */
export interface LevelsLearning extends LevelStrokes {
  /** The pad's MIDI note: that of the first stroke; others are not listened to. */
  readonly note: number | undefined;
}

export const NO_LEVELS: LevelsLearning = { note: undefined, ghosts: [], taps: [], accents: [] };

type LevelMessage = Pick<KitMessage, 'kind' | 'setAside' | 'pad' | 'velocity' | 'voiceNumber'>;

/** The level to strike now; undefined when all are there. */
export const levelToStrike = (learning: LevelsLearning): Level | undefined =>
  ORDER.find((level) => learning[KEYS[level]].length < STROKES_A_LEVEL);

/** How many strokes the level asked for has. */
export const strokesSoFar = (learning: LevelsLearning, level: Level): number =>
  learning[KEYS[level]].length;

/** One message of the kit: a stroke counts, but for the kit's faults and for what is asked for no level. */
export function strikeLevel(learning: LevelsLearning, message: LevelMessage): LevelsLearning {
  const { kind, setAside, pad: note, velocity, voiceNumber } = message;
  if (kind !== STROKE || setAside !== GENUINE || !asksLevel(VOICES[voiceNumber]!)) return learning;
  const level = levelToStrike(learning);
  if (level === undefined || (learning.note ?? note) !== note) return learning;
  const key = KEYS[level];
  return { ...learning, note, [key]: [...learning[key], velocity] };
}
