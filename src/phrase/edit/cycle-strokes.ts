import type { LayerStroke } from '../layers/layer-stroke';
import { layerStack } from '../layers/layer-stack';
import type { Limb } from '../model/limb';
import type { NoteSound } from '../model/note';
import type { Phrase } from '../model/phrase';
import { voiceNumber } from '../model/voice';

/** A main note of the cycle as a layer left it. */
export interface CycleStroke extends NoteSound {
  /** 1-based partial of the cycle. */
  readonly position: number;
  /** The hands of its grace notes, first to sound first. */
  readonly graces: readonly Limb[];
  /** Whether the layer made or changed it. */
  readonly changed: boolean;
}

/**
 * The key of a main note among those of a cycle.
 *
 * @example noteKey({ position: 3, limb: 'R' }) // => '3/R'
 */
export const noteKey = ({ position, limb }: { position: number; limb: Limb }): string =>
  `${position}/${limb}`;

/** What sounds in the first cycle as a layer (1-based) left it, by position, then in staff order. */
export const cycleStrokes = (phrase: Phrase, layer: number): readonly CycleStroke[] =>
  layerStack(phrase, layer)
    .strokes(1)
    .filter(({ silent }) => !silent)
    .map((stroke) => told(stroke, layer))
    .sort((a, b) => a.position - b.position || voiceNumber(a.voice) - voiceNumber(b.voice));

function told({ position, limb, voice, level, graces, layers }: LayerStroke, layer: number) {
  const sounding = graces.filter(({ silent }) => !silent);
  return {
    position,
    limb,
    voice,
    level,
    graces: sounding.map((grace) => grace.limb),
    changed: layers.includes(layer) || sounding.some((grace) => grace.layers.includes(layer)),
  };
}

/** The keys of the notes that a layer (1-based) made or changed. */
export const changedNotes = (phrase: Phrase, layer: number): ReadonlySet<string> =>
  new Set(
    cycleStrokes(phrase, layer)
      .filter(({ changed }) => changed)
      .map(noteKey),
  );
