import type { Level } from '../model/level';
import type { Limb } from '../model/limb';
import type { Phrase, RootStep } from '../model/phrase';
import type { Voice } from '../model/voice';

/** A grace note while the layers are being laid on. */
export interface LayerGrace {
  limb: Limb;
  voice: Voice;
  level: Level;
  silent: boolean;
  /** 1-based numbers of the layers that made or changed it, ascending. */
  layers: readonly number[];
}

/** A main note with its grace notes, first to sound first, while the layers are being laid on. */
export interface LayerStroke extends LayerGrace {
  /** 1-based partial of the cycle; in a pickup, minus the partials before the downbeat. */
  position: number;
  graces: LayerGrace[];
}

const STARTING_VOICES: Readonly<Record<Limb, Voice>> = {
  R: 'snare',
  L: 'snare',
  K: 'bass drum',
  F: 'hi-hat pedal',
};

/** Where a limb plays until a change says otherwise. @example startingVoice('K') // => 'bass drum' */
export const startingVoice = (limb: Limb): Voice => STARTING_VOICES[limb];

/** A stroke at tap level unless told otherwise, made by a layer (1-based). */
export function layerStroke(
  position: number,
  stroke: { limb: Limb; voice?: Voice; level?: Level },
  layer: number,
): LayerStroke {
  return {
    position,
    limb: stroke.limb,
    voice: stroke.voice ?? startingVoice(stroke.limb),
    level: stroke.level ?? 'tap',
    silent: false,
    layers: [layer],
    graces: [],
  };
}

/** One cycle of the bare grouping, which starts over until the cycle's end cuts it. */
export function rootCycle(phrase: Phrase): LayerStroke[] {
  const strokes: LayerStroke[] = [];
  for (let partial = 0; partial < phrase.cycle; partial++) {
    const step: RootStep = phrase.grouping[partial % phrase.grouping.length]!;
    for (const root of step) {
      const stroke = layerStroke(partial + 1, root, 1);
      stroke.graces = root.graces.map((limb) => layerGrace(limb, startingVoice(limb), 1));
      strokes.push(stroke);
    }
  }
  return strokes;
}

export const layerGrace = (limb: Limb, voice: Voice, layer: number): LayerGrace => ({
  limb,
  voice,
  level: 'tap',
  silent: false,
  layers: [layer],
});

/** The same strokes, which changes can be laid on apart from these. */
export const copyStrokes = (strokes: readonly LayerStroke[]): LayerStroke[] =>
  strokes.map((stroke) => ({
    position: stroke.position,
    limb: stroke.limb,
    voice: stroke.voice,
    level: stroke.level,
    silent: stroke.silent,
    layers: stroke.layers,
    graces: stroke.graces.length === 0 ? [] : stroke.graces.map((grace) => ({ ...grace })),
  }));

/** Notes down that a layer changed it. */
export function touch(draft: LayerGrace, layer: number): void {
  if (draft.layers.at(-1) !== layer) draft.layers = [...draft.layers, layer];
}
