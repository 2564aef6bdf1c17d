import { gridAt } from '../model/grid';
import { layerStack } from '../layers/layer-stack';
import { LIMBS, type Limb } from '../model/limb';
import type { Phrase } from '../model/phrase';
import { VOICES, type Voice } from '../model/voice';

/** What a phrase has that twists can be about, with all its layers on. */
export interface TwistFacts {
  /** Partials to the beat. */
  readonly subdivision: number;
  /** Limbs that play in the cycle, right hand first. */
  readonly limbs: readonly Limb[];
  /** Voices of the cycle's main notes, staff order. */
  readonly voices: readonly Voice[];
  /** The same of one limb's. */
  readonly voicesOf: (limb: Limb) => readonly Voice[];
  /** Main notes in the cycle. */
  readonly strokes: number;
  /** Positions of the cycle on which something is struck, or this limb strikes. */
  readonly onsets: (limb?: Limb) => number;
}

/** Reads them off the first cycle. */
export function twistFacts(phrase: Phrase): TwistFacts {
  const layer = phrase.layers.length;
  const mains = layerStack(phrase, layer)
    .pattern(1)
    .filter(({ graceStep }) => graceStep === 0);
  const limbs = new Set(mains.map(({ limb }) => limb));
  const voices = new Set(mains.map(({ voice }) => voice));
  return {
    subdivision: gridAt(phrase, layer).subdivision,
    limbs: LIMBS.filter((limb) => limbs.has(limb)),
    voices: VOICES.filter((voice) => voices.has(voice)),
    voicesOf: (limb) =>
      VOICES.filter((voice) => mains.some((note) => note.limb === limb && note.voice === voice)),
    strokes: mains.length,
    onsets: (limb) =>
      new Set(
        mains.flatMap((note) => (limb === undefined || note.limb === limb ? [note.position] : [])),
      ).size,
  };
}
