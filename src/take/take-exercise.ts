import { exerciseOf, type ExerciseChoice } from '../phrase/exercise/exercise';
import { parsePhrase } from '../phrase/file/parse-phrase';
import { writePhrase } from '../phrase/file/write-phrase';
import type { Phrase } from '../phrase/model/phrase';

/** What of a phrase was practised by itself. */
export interface TakeExercise {
  /** The file of the phrase that the take's own was made of, text of its JSON, led by the hand that led it. */
  readonly phrase: string;
  /** 1-based. */
  readonly layer: number;
  readonly choice: ExerciseChoice;
  /** The tempo that the whole goes on at, beats of the meter a minute. */
  readonly wholeBpm: number;
}

/**
 * The phrase whose last layer the app played beside a take; undefined where it played nothing, and where the take's phrase is
 * not what its exercise makes.
 */
export function accompanyingPhrase({
  exercise,
  phraseText,
}: {
  readonly exercise?: TakeExercise | undefined;
  readonly phraseText: string;
}): Phrase | undefined {
  if (!exercise) return undefined;
  const parsed = parsePhrase(exercise.phrase);
  if (!parsed.ok || exercise.layer > parsed.value.layers.length) return undefined;
  const made = exerciseOf(parsed.value, exercise.layer, exercise.choice);
  return made.ok && writePhrase(made.value.phrase) === phraseText ? made.value.whole : undefined;
}
