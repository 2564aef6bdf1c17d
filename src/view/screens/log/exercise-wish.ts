import type { Drill } from '../../../coach/drill';
import type { FindingExercise } from '../../../coach/finding-exercise';
import type { PracticeWish } from '../../phrase/practise-phrase';
import type { TakeExercise } from '../../../take/take-exercise';
import type { PhraseOfTake } from './phrase-of-take';

/** An exercise of a take once more, with something more of it narrowed down. */
export const exerciseWish = (
  { layer, choice, wholeBpm }: TakeExercise,
  { leadingHand }: PhraseOfTake,
  { atBpm, ...narrower }: TakeExercise['choice'] & { readonly atBpm: number },
): PracticeWish => ({
  layer,
  tempoBpm: wholeBpm,
  leadingHand,
  exercise: { ...choice, ...narrower },
  atBpm,
});

/**
 * What a finding of an exercise has to practise: these notes are all of the exercise, and a limb, or turns, narrow it down.
 * Undefined where the advice names a layer that the exercise does not have.
 */
export function narrowerWish(
  exercise: TakeExercise,
  origin: PhraseOfTake,
  { kind }: Drill,
  { exercise: choice, bpm: atBpm }: FindingExercise,
): PracticeWish | undefined {
  if (kind === 'other layer') return undefined;
  const { part, answerCycles } = choice ?? {};
  return exerciseWish(exercise, origin, {
    ...(part && { part }),
    ...(answerCycles !== undefined && { answerCycles }),
    atBpm,
  });
}
