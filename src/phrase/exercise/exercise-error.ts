import { bad } from '../../time/result';

/** Why something smaller than a phrase cannot be practised, in one sentence that says what to do. */
export interface ExerciseError {
  readonly code:
    'EXCERPT_EMPTY' | 'EXCERPT_TOO_LONG' | 'PART_EMPTY' | 'TURNS_TOO_LONG' | 'EXERCISE_TOO_LARGE';
  readonly message: string;
}

/** An exercise that there is not. */
export const noExercise = (code: ExerciseError['code'], message: string) =>
  bad<ExerciseError>({ code, message });
