import type { ExerciseChoice } from '../phrase/exercise/exercise';
import type { Choices } from './choices';

/**
 * The choices that take up an exercise, or the whole again at the tempo it was left at.
 *
 * @example exerciseChoices({ tempoBpm: 72, exercise: { answerCycles: 2, wholeBpm: 96 } }, undefined) // => { tempoBpm: 96, exercise: undefined }
 */
export function exerciseChoices(
  { exercise: before, tempoBpm }: Pick<Choices, 'exercise' | 'tempoBpm'>,
  exercise: ExerciseChoice | undefined,
): Pick<Choices, 'exercise' | 'tempoBpm'> {
  const wholeBpm = before?.wholeBpm ?? tempoBpm;
  return exercise
    ? { exercise: { ...exercise, wholeBpm }, tempoBpm }
    : { exercise: undefined, tempoBpm: wholeBpm };
}
