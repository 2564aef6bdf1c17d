import type { ExerciseChoice } from '../../phrase/exercise/exercise';
import { exerciseChoices } from '../../practice/exercise-choices';
import type { LibraryPhrase } from '../../practice/library.svelte';
import type { AppParts } from '../app-context';

/**
 * Goes to the practise screen with a phrase, at a layer (1-based) if one is told, and with an exercise on it; a take that
 * runs is ended first.
 */
export async function practisePhrase(
  { session, route }: Pick<AppParts, 'session' | 'route'>,
  entry: LibraryPhrase,
  layer?: number,
  exercise?: ExerciseChoice,
): Promise<void> {
  if (session.status !== 'idle') await session.stop();
  session.choosePhrase(entry);
  if (layer !== undefined) session.choose({ layer });
  session.choose(exerciseChoices(session.choices, exercise));
  route.go('practise');
}
