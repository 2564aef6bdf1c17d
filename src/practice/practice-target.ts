import { exerciseOf } from '../phrase/exercise/exercise';
import { writePhrase } from '../phrase/file/write-phrase';
import type { Choices } from './choices';
import { ledBy } from './led-by';
import type { LibraryPhrase } from './library.svelte';
import { wholeTarget, type PracticeTarget } from './whole-target';

type TargetChoices = Pick<Choices, 'layer' | 'exercise' | 'leadingHand'>;

/** What a choice makes of a phrase; the one made last is kept, since a page asks for it again and again. */
export function practiceTarget(entry: LibraryPhrase, choices: TargetChoices): PracticeTarget {
  const { layer, exercise, leadingHand: hand } = choices;
  const key = [entry, layer, exercise, hand];
  if (!last || last.key.some((one, i) => one !== key[i]))
    last = { key, target: newTarget(entry, choices) };
  return last.target;
}

let last: { readonly key: readonly unknown[]; readonly target: PracticeTarget } | undefined;

function newTarget(entry: LibraryPhrase, choices: TargetChoices): PracticeTarget {
  const chosen = handed(entry, choices);
  const target = wholeTarget(chosen, choices.layer);
  if (!choices.exercise) return target;
  const exercise = exerciseOf(chosen.phrase, target.layer, choices.exercise);
  if (!exercise.ok) return { ...target, problem: exercise.errors[0]!.message };
  const { phrase, whole } = exercise.value;
  const { wholeBpm, ...choice } = choices.exercise;
  return {
    ...target,
    phrase,
    text: writePhrase(phrase),
    layer: phrase.layers.length,
    whole,
    isExercise: true,
    exercise: { phrase: chosen.text, layer: target.layer, choice, wholeBpm },
  };
}

function handed(entry: LibraryPhrase, { leadingHand: hand }: TargetChoices): LibraryPhrase {
  if (hand === 'as written') return entry;
  const phrase = ledBy(entry.phrase, hand);
  return { ...entry, phrase, text: writePhrase(phrase) };
}
