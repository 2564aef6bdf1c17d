import { DEFAULT_BOUNDARIES, LEVELS, USUAL_VELOCITIES, type Level } from '../phrase/model/level';

/**
 * The level that a velocity stands for: the usual one has its own, others fall between the usual boundaries. Where every
 * note has the same velocity, and not a usual one, nobody wrote levels: all are taps.
 *
 * @param velocities of all notes of the file
 */
export function writtenLevels(velocities: readonly number[]): (velocity: number) => Level {
  const usual = LEVELS.map((level) => USUAL_VELOCITIES[level]);
  const [only, ...others] = new Set(velocities);
  if (others.length === 0 && only !== undefined && !usual.includes(only)) return () => 'tap';
  const { ghostMax, accentMin } = DEFAULT_BOUNDARIES;
  return (velocity) => (velocity <= ghostMax ? 'ghost' : velocity >= accentMin ? 'accent' : 'tap');
}
