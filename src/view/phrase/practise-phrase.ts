import type { ExerciseChoice } from '../../phrase/exercise/exercise';
import type { Choices } from '../../practice/choices';
import { exerciseChoices } from '../../practice/exercise-choices';
import type { LibraryPhrase } from '../../practice/library.svelte';
import type { AppParts } from '../app-context';

/** How a phrase is to be practised, as far as it is told. */
export interface PracticeWish extends Partial<Pick<Choices, 'layer' | 'tempoBpm' | 'leadingHand'>> {
  readonly exercise?: ExerciseChoice | undefined;
  /** Where it is not the tempo of the whole, which stays the one to come back to. */
  readonly atBpm?: number | undefined;
}

/**
 * Goes to the practise screen with a phrase, or with an exercise on it; a take that runs is ended first.
 */
export async function practisePhrase(
  { session, route }: Pick<AppParts, 'session' | 'route'>,
  entry: LibraryPhrase,
  { exercise, atBpm, ...choices }: PracticeWish = {},
): Promise<void> {
  if (session.status !== 'idle') await session.stop();
  session.choosePhrase(entry);
  session.choose(exerciseChoices(session.choices, undefined));
  session.choose(choices);
  if (exercise) session.choose(exerciseChoices(session.choices, exercise));
  if (atBpm !== undefined) {
    const { phraseId, layer, tempoBpm: bpm } = session.choices;
    session.choose({
      tempoBpm: atBpm,
      tempoToComeBack: exercise || atBpm === bpm ? undefined : { phraseId, layer, bpm },
    });
  }
  route.go('practise');
}
