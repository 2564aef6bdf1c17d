import type { PatternNote } from '../cycle-pattern';
import { LaidLayers } from '../laid-layers';
import type { Phrase } from '../phrase';
import { difficultyOf } from '../playability/difficulty';
import { motion, type Motion } from '../playability/motion';
import { isPlayable } from '../playability/playability';
import { MOST_CYCLES } from '../timeline';
import { laidDistance, laidNotes } from './distance';
import type { Made, Varied } from './varied';

/** A varied phrase that can be played, differs from the original, and says how. */
export interface Variation extends Varied {
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
  varied: Varied | undefined,
  bpm: number = original.tempoBpm,
): Variation | undefined {
  if (!varied) return undefined;
  const { phrase, sentence } = varied;
  return offers(new LaidLayers(original), bpm)({ laid: new LaidLayers(phrase), sentence });
}

/** The same for many variations of one phrase: what they share is looked at once. */
export function offers(
  original: LaidLayers,
  bpm: number = original.phrase.tempoBpm,
): (made: Made) => Variation | undefined {
  const from = laidNotes(original.whole);
  const playable = new WeakMap<LaidLayers, boolean>();
  const isPlayableThroughout = (laid: LaidLayers): boolean =>
    playable.get(laid) ?? playableMotion(laid) !== undefined;
  /** With all layers on; undefined where that or some layer cannot be played. */
  const playableMotion = (laid: LaidLayers): Motion | undefined => {
    const moved = motion(laid.whole);
    const isPlayed = isPlayable(moved, bpm) && isPlayableBelow(laid);
    playable.set(laid, isPlayed);
    return isPlayed ? moved : undefined;
  };
  const isPlayableBelow = (laid: LaidLayers): boolean => {
    if (laid.below) return isPlayableThroughout(laid.below);
    for (let layer = laid.phrase.layers.length - 1; layer > 0; layer--)
      if (!isSameMotion(laid, layer) && !isPlayable(motion(laid.at(layer)), bpm)) return false;
    return true;
  };
  return ({ laid, sentence }) => {
    const moved = playable.get(laid) === false ? undefined : playableMotion(laid);
    if (!moved) return undefined;
    const apart = laidDistance(from, laidNotes(laid.whole, moved));
    if (apart === 0) return undefined;
    return { phrase: laid.phrase, sentence, distance: apart, difficulty: difficultyOf(moved, bpm) };
  };
}

/** Whether a layer asks the limbs to go where the next one does, only louder or softer. */
function isSameMotion(laid: LaidLayers, layer: number): boolean {
  const lower = laid.at(layer);
  const upper = laid.at(layer + 1);
  if (upper.grid !== lower.grid || upper.period !== lower.period) return false;
  for (let cycle = 0; cycle <= Math.min(upper.period, MOST_CYCLES); cycle++) {
    const notes = upper.pattern(cycle);
    const others = lower.pattern(cycle);
    if (notes.length !== others.length || !notes.every((note, i) => isSamePlace(note, others[i]!)))
      return false;
  }
  return true;
}

const isSamePlace = (a: PatternNote, b: PatternNote): boolean =>
  a.partial === b.partial &&
  a.graceStep === b.graceStep &&
  a.limb === b.limb &&
  a.voice === b.voice;
