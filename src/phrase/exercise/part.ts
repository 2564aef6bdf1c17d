import type { Result } from '../../time/result';
import { layerStack } from '../layers/layer-stack';
import { limbName, type Limb } from '../model/limb';
import type { Phrase, Selector } from '../model/phrase';
import type { Voice } from '../model/voice';
import { noExercise, type ExerciseError } from './exercise-error';
import { oneLayer } from './one-layer';

/** One limb or one voice of a layer, or everything else. */
export type Part = ({ readonly limb: Limb } | { readonly voice: Voice }) & {
  readonly allBut?: boolean | undefined;
};

/**
 * A layer (1-based) with one part of it left and the rest at rest, as a phrase of one layer. A grace note is left where
 * its own limb or voice and its main note's are: nobody is asked for one half of a flam alone.
 *
 * @throws RangeError when the phrase has no such layer.
 * @example partOf(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, 1, { limb: 'K' }).value.layers[0].name // => 'Sticking, right foot alone'
 */
export function partOf(phrase: Phrase, layer: number, part: Part): Result<Phrase, ExerciseError> {
  const own: Selector = 'limb' in part ? { limb: part.limb } : { voice: part.voice };
  const others: Selector = part.allBut ? own : { not: own };
  const where: Selector = { any: [others, { grace: true, ...others }] };
  const words = partWords(part);
  const left = oneLayer(phrase, layer, {
    words,
    change: { kind: 'set', where, set: { silent: true } },
  });
  if (!left.ok || sounds(left.value)) return left;
  return noExercise(
    'PART_EMPTY',
    `Nothing of this layer is left for ${words}; choose another part.`,
  );
}

/** @example partWords({ limb: 'L', allBut: true }) // => 'all but the left hand' */
export function partWords(part: Part): string {
  const name = 'limb' in part ? limbName(part.limb) : part.voice;
  return part.allBut ? `all but the ${name}` : `${name} alone`;
}

/** Whether anything of the last layer sounds. */
function sounds(phrase: Phrase): boolean {
  const stack = layerStack(phrase);
  const cycles = Math.min(stack.period, stack.cyclesInReach);
  for (let cycle = 0; cycle <= cycles; cycle++) if (stack.pattern(cycle).length > 0) return true;
  return false;
}
