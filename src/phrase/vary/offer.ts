import { layerStack, type LayerStack } from '../layers/layer-stack';
import { areAlike, isSameMotion } from '../layers/same-sound';
import type { Phrase } from '../model/phrase';
import { difficultyOf } from '../playability/difficulty';
import { motion, type Motion } from '../playability/motion';
import { isPlayable } from '../playability/playability';
import { MOST_CYCLES } from '../layers/timeline';
import { stackDistance, stackNotes } from './distance';
import type { LayeredVariation, VariedPhrase } from './layered-variation';

/** A varied phrase that can be played, differs from the original, and says how. */
export interface Variation extends VariedPhrase {
  /** From the original, see distance; above 0. */
  readonly distance: number;
  /** At the tempo it is offered for, with all layers on, see playability. */
  readonly difficulty: number;
}

/**
 * A varied phrase as it may be offered: undefined when nothing sounds different, or some layer of it cannot be
 * played at the tempo (the original's unless told otherwise).
 */
export function offer(
  original: Phrase,
  varied: VariedPhrase | undefined,
  bpm: number = original.tempoBpm,
): Variation | undefined {
  if (!varied) return undefined;
  const { phrase, sentence } = varied;
  return offers(layerStack(original), bpm)({ stack: layerStack(phrase), sentence });
}

/** The same for many variations of one phrase: what they share is looked at once. */
export function offers(
  original: LayerStack,
  bpm: number = original.phrase.tempoBpm,
): (variation: LayeredVariation) => Variation | undefined {
  const from = stackNotes(original);
  const playable = new WeakMap<LayerStack, boolean>();
  const isPlayableThroughout = (stack: LayerStack, moved?: Motion): boolean => {
    const known = playable.get(stack);
    if (known !== undefined) return known;
    const { below } = stack;
    const isPlayed =
      (below === undefined || isPlayableThroughout(below)) &&
      ((below !== undefined && isAsBelow(stack, below)) || isPlayable(moved ?? motion(stack), bpm));
    playable.set(stack, isPlayed);
    return isPlayed;
  };
  return ({ stack, sentence }) => {
    if (stack.below && !isPlayableThroughout(stack.below)) return undefined;
    const moved = motion(stack);
    if (!isPlayableThroughout(stack, moved)) return undefined;
    const apart = stackDistance(from, stackNotes(stack, moved));
    if (apart === 0) return undefined;
    return {
      phrase: stack.phrase,
      sentence,
      distance: apart,
      difficulty: difficultyOf(moved, bpm),
    };
  };
}

/** Whether a layer asks the limbs to go where the one below does, only louder or softer. */
const isAsBelow = (stack: LayerStack, below: LayerStack): boolean =>
  stack.grid === below.grid &&
  stack.period === below.period &&
  areAlike(stack, below, isSameMotion, MOST_CYCLES);
