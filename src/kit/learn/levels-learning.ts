import type { LevelStrokes } from './learn-levels';
import type { Level } from '../../phrase/model/level';

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

/** The level to strike now; undefined when all are there. */
export const levelToStrike = (learning: LevelsLearning): Level | undefined =>
  ORDER.find((level) => learning[KEYS[level]].length < STROKES_A_LEVEL);

/** How many strokes the level asked for has. */
export const strokesSoFar = (learning: LevelsLearning, level: Level): number =>
  learning[KEYS[level]].length;

/** One note-on of a pad. */
export function strikeLevel(
  learning: LevelsLearning,
  note: number,
  velocity: number,
): LevelsLearning {
  const level = levelToStrike(learning);
  if (level === undefined || (learning.note ?? note) !== note) return learning;
  const key = KEYS[level];
  return { ...learning, note, [key]: [...learning[key], velocity] };
}
