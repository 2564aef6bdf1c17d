import type { PatternNote } from '../layers/cycle-pattern';
import { LaidLayers } from '../layers/laid-layers';
import type { Phrase } from '../model/phrase';
import { difficultyOf } from '../playability/difficulty';
import { motion, type Motion } from '../playability/motion';
import { isPlayable } from '../playability/playability';
import { MOST_CYCLES } from '../layers/timeline';
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
  const from = laidNotes(original);
  const playable = new WeakMap<LaidLayers, boolean>();
  const isPlayableThroughout = (laid: LaidLayers, moved?: Motion): boolean => {
    const known = playable.get(laid);
    if (known !== undefined) return known;
    const { below } = laid;
    const isPlayed =
      (below === undefined || isPlayableThroughout(below)) &&
      ((below !== undefined && isSameMotion(laid, below)) ||
        isPlayable(moved ?? motion(laid), bpm));
    playable.set(laid, isPlayed);
    return isPlayed;
  };
  return ({ laid, sentence }) => {
    if (laid.below && !isPlayableThroughout(laid.below)) return undefined;
    const moved = motion(laid);
    if (!isPlayableThroughout(laid, moved)) return undefined;
    const apart = laidDistance(from, laidNotes(laid, moved));
    if (apart === 0) return undefined;
    return { phrase: laid.phrase, sentence, distance: apart, difficulty: difficultyOf(moved, bpm) };
  };
}

/** Whether a layer asks the limbs to go where the one below does, only louder or softer. */
function isSameMotion(laid: LaidLayers, below: LaidLayers): boolean {
  if (laid.grid !== below.grid || laid.period !== below.period) return false;
  for (let cycle = 0; cycle <= Math.min(laid.period, MOST_CYCLES); cycle++) {
    const notes = laid.pattern(cycle);
    const others = below.pattern(cycle);
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
