import type { Result } from '../../time/result';
import { remainder } from '../../time/whole';
import { countInWords } from '../../words/words';
import { layerStack } from '../layers/layer-stack';
import type { Phrase, Selector } from '../model/phrase';
import { MAX_PATTERN } from '../model/phrase-file';
import { noExercise, type ExerciseError } from './exercise-error';
import { oneLayer } from './one-layer';

/**
 * A layer (1-based) that rests for so many whole cycles and is played for as many, in turns, as a phrase of one layer: what
 * is answered. The pickup belongs to the first turn, and rests.
 *
 * @throws RangeError when the phrase has no such layer.
 * @example expand(answering(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L', layers: [{ name: 'Sticking' }] }).value, 1, 1).value, 1, { cycles: 4 }).map(({ cycle }) => cycle) // => [2, 2, 4, 4]
 */
export function answering(
  phrase: Phrase,
  layer: number,
  cycles: number,
): Result<Phrase, ExerciseError> {
  const stack = layerStack(phrase, layer);
  const turn = cycles * phrase.cycle;
  const partials = 2 * turn;
  if (partials > MAX_PATTERN)
    return noExercise(
      'TURNS_TOO_LONG',
      `Two turns take ${partials} partials, and at most ${MAX_PATTERN} are possible; take fewer cycles a turn.`,
    );
  const at = Array.from(
    { length: turn },
    (_, i) => remainder(stack.grid.displace + i, partials) + 1,
  ).sort((a, b) => a - b);
  const turns: Selector = { every: { partials, at } };
  const where = stack.strokes(0).length > 0 ? { any: [turns, PICKUP] } : turns;
  return oneLayer(phrase, layer, {
    words: turnWords(cycles),
    change: { kind: 'set', where, set: { silent: true } },
  });
}

/** @example turnWords(2) // => 'hear two cycles, answer two' */
export function turnWords(cycles: number): string {
  const heard = countInWords(cycles, 'cycle');
  return `hear ${heard}, answer ${heard.split(' ')[0]!}`;
}

/** A pickup alone has no place that comes round. */
const PICKUP: Selector = { not: { every: { partials: 1, at: [1] } } };
