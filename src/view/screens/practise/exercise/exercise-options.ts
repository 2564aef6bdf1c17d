import { turnWords } from '../../../../phrase/exercise/answering';
import { partialWords } from '../../../../phrase/exercise/excerpt-words';
import type { ExerciseChoice } from '../../../../phrase/exercise/exercise';
import { excerptPlaces } from '../../../../phrase/exercise/excerpt-places';
import { layerParts } from '../../../../phrase/exercise/layer-parts';
import { partWords, type Part } from '../../../../phrase/exercise/part';
import type { Phrase } from '../../../../phrase/model/phrase';
import type { Choices } from '../../../../practice/choices';
import { exerciseChoices } from '../../../../practice/exercise-choices';
import { capital } from '../../../../words/words';
import type { AppParts } from '../../../app-context';
import type { Marking } from './marking.svelte';

/** Cycles of a turn that are offered; 0 for no turns. */
export const TURNS = [0, 1, 2, 4] as const;

/** Every part that a layer (1-based) has, where there is more than one. */
export function partOptions(
  phrase: Phrase,
  layer: number,
): readonly { readonly value: string; readonly name: string; readonly part: Part }[] {
  const { limbs, voices } = layerParts(phrase, layer);
  const own: readonly Part[] = [
    ...(limbs.length > 1 ? limbs.map((limb) => ({ limb })) : []),
    ...(voices.length > 1 ? voices.map((voice) => ({ voice })) : []),
  ];
  return own
    .flatMap((part): Part[] => [part, { ...part, allBut: true }])
    .map((part) => ({ value: partKey(part), name: capital(partWords(part)), part }));
}

/** Tells parts apart. */
export const partKey = (part: Part): string => partWords(part);

/** The partials where an excerpt of a layer (1-based) can begin or end, as they are counted. */
export function placeOptions(
  phrase: Phrase,
  layer: number,
): readonly { readonly value: number; readonly name: string }[] {
  const { from, to, subdivision } = excerptPlaces(phrase, layer);
  return Array.from({ length: to - from + 1 }, (_, i) => {
    const value = from + i;
    return { value, name: partialWords(phrase.meter, subdivision, value) };
  });
}

/**
 * What is practised, in one line.
 *
 * @example exerciseWords({ leadingHand: 'as written' }) // => 'the whole layer'
 */
export function exerciseWords({
  exercise,
  leadingHand,
}: Pick<Choices, 'exercise' | 'leadingHand'>): string {
  const words = [
    ...(exercise?.excerpt ? ['only some of its notes'] : []),
    ...(exercise?.part ? [partWords(exercise.part)] : []),
    ...(exercise?.answerCycles ? [turnWords(exercise.answerCycles)] : []),
  ];
  const what = words.length > 0 ? words.join(' · ') : 'the whole layer';
  return leadingHand === 'as written' ? what : `${what} · led by the other hand`;
}

/** An exercise with something of it changed; undefined where it leaves the layer whole. */
export function changedExercise(
  before: ExerciseChoice | undefined,
  some: ExerciseChoice,
): ExerciseChoice | undefined {
  const { excerpt, part, isRestHeard, answerCycles } = { ...before, ...some };
  if (!excerpt && !part && !answerCycles) return undefined;
  return {
    ...(excerpt && { excerpt }),
    ...(part && { part }),
    ...(isRestHeard !== undefined && { isRestHeard }),
    ...(answerCycles && { answerCycles }),
  };
}

/** Takes the stretch that is marked up as an excerpt. */
export function practiseMarked(
  session: Pick<AppParts['session'], 'choices' | 'choose'>,
  marking: Marking,
): void {
  const { excerpt } = marking;
  const { choices } = session;
  marking.end();
  session.choose(exerciseChoices(choices, changedExercise(choices.exercise, { excerpt })));
  scrollTo({ top: 0 });
}
