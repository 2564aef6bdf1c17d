import { good, type Result } from '../../time/result';
import type { Phrase } from '../model/phrase';
import { answering } from './answering';
import { excerptOf } from './excerpt';
import type { Excerpt } from './excerpt-words';
import type { ExerciseError } from './exercise-error';
import { oneLayer } from './one-layer';
import { partOf, type Part } from './part';

/** What of a layer is practised by itself; each of them narrows down what the one before left. */
export interface ExerciseChoice {
  readonly excerpt?: Excerpt | undefined;
  readonly part?: Part | undefined;
  /** Whether what is no part of it is played by the app, or rests. */
  readonly isRestHeard?: boolean | undefined;
  /** Cycles that are heard, and as many that are answered. */
  readonly answerCycles?: number | undefined;
}

/** A phrase whose last layer is practised like any other. */
export interface Exercise {
  readonly phrase: Phrase;
  /** Its last layer, with what the app plays; undefined where it plays nothing. */
  readonly whole: Phrase | undefined;
}

/**
 * The exercise that a choice makes of a layer (1-based).
 *
 * @throws RangeError when the phrase has no such layer.
 * @example exerciseOf(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, 1, { part: { limb: 'K' }, answerCycles: 2 }).value.phrase.title // => 'Slip, right foot alone, hear two cycles, answer two'
 */
export function exerciseOf(
  phrase: Phrase,
  layer: number,
  { excerpt, part, isRestHeard = true, answerCycles }: ExerciseChoice,
): Result<Exercise, ExerciseError> {
  const taken = excerpt
    ? excerptOf(phrase, layer, excerpt)
    : oneLayer(phrase, layer, { words: '' });
  if (!taken.ok) return taken;
  const whole = taken.value;
  const left = part ? partOf(whole, whole.layers.length, part) : taken;
  if (!left.ok) return left;
  if (answerCycles === undefined)
    return good({ phrase: left.value, whole: part && isRestHeard ? whole : undefined });
  const answer = answering(left.value, left.value.layers.length, answerCycles);
  if (!answer.ok) return answer;
  return good({ phrase: answer.value, whole: isRestHeard ? whole : left.value });
}
