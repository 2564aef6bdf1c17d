import { good, type Result } from '../../time/result';
import { checkDraft } from '../check/draft-check';
import { freeTitle } from '../model/free-title';
import type { Change, Phrase } from '../model/phrase';
import { draftOf, type LayerDraft } from '../model/phrase-draft';
import { MAX_CHANGES, MAX_NAME } from '../model/phrase-file';
import { noExercise, type ExerciseError } from './exercise-error';

/** What becomes of a phrase in one layer. */
export interface OneLayer {
  /** Put after the title and the layer's name. */
  readonly words: string;
  /** After all others; left out where it meets no note. */
  readonly change?: Change;
}

/**
 * A phrase up to a layer (1-based) as a phrase of one layer, of the same notes but for what `change` does to them: more
 * than one layer only where there are more changes than a layer may have, and then it is the last.
 */
export function oneLayer(
  phrase: Phrase,
  layer: number,
  { words, change }: OneLayer,
): Result<Phrase, ExerciseError> {
  const changes = phrase.layers.slice(0, layer).flatMap((one) => one.changes);
  if (change) changes.push(change);
  const name = withWords(phrase.layers[layer - 1]!.name, words);
  const layers: LayerDraft[] = [];
  for (let from = 0; from === 0 || from < changes.length; from += MAX_CHANGES)
    layers.push({ name, changes: changes.slice(from, from + MAX_CHANGES) });
  const checked = checkDraft({ ...draftOf(phrase), title: withWords(phrase.title, words), layers });
  if (checked.ok) return good(checked.value);
  // Everything else was right before.
  if (change && checked.errors[0]!.code === 'SELECTS_NOTHING')
    return oneLayer(phrase, layer, { words });
  return noExercise('EXERCISE_TOO_LARGE', checked.errors[0]!.message);
}

/** Cut where it would be too long for a name. */
const withWords = (name: string, words: string): string =>
  words === '' ? name : freeTitle(name, () => `, ${words}`.slice(0, MAX_NAME - 1), []);
