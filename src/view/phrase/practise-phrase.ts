import type { ExerciseChoice } from '../../phrase/exercise/exercise';
import type { Choices } from '../../practice/choices';
import { exerciseChoices } from '../../practice/exercise-choices';
import { ledBy } from '../../practice/led-by';
import type { LibraryPhrase } from '../../practice/library.svelte';
import { layerProgress, layerToPractise, progressOf } from '../../take/progress';
import type { AppParts } from '../app-context';

/** How a phrase is to be practised, as far as it is told. */
export interface PracticeWish extends Partial<Pick<Choices, 'layer' | 'tempoBpm' | 'leadingHand'>> {
  readonly exercise?: ExerciseChoice | undefined;
  /** Where it is not the tempo of the whole, which stays the one to come back to. */
  readonly atBpm?: number | undefined;
}

/**
 * Goes to the practise screen with a phrase, or with an exercise on it; a take that runs is ended first. Where no layer
 * is wished for it is the first that is not passed yet.
 */
export async function practisePhrase(
  { session, route, takes }: Pick<AppParts, 'session' | 'route' | 'takes'>,
  entry: LibraryPhrase,
  { exercise, atBpm, ...choices }: PracticeWish = {},
): Promise<void> {
  if (session.status !== 'idle') await session.stop();
  session.choosePhrase(entry);
  session.choose(exerciseChoices(session.choices, undefined));
  const phrase = ledBy(entry.phrase, choices.leadingHand ?? session.choices.leadingHand);
  const layer = layerToPractise(layerProgress(progressOf(takes.summaries), phrase));
  session.choose({ layer, ...choices });
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
