import { cycleNotes } from '../phrase/layers/expand';
import { layerShape } from '../phrase/layers/layer-shape';
import type { Phrase } from '../phrase/model/phrase';
import { syllable } from '../phrase/model/syllable';
import { remainder } from '../time/whole';
import { mainNotes } from './main-notes';

export interface PositionNote {
  /** Grace notes small, ahead of their limb: "lR". */
  readonly sticking: string;
  readonly voice: string;
  readonly level: string;
}

export interface PositionColumn {
  /** 1-based partial of the cycle. */
  readonly position: number;
  /** Counted in the first cycle. */
  readonly count: string;
  readonly onBeat: boolean;
  /** Notes of the position, staff order; empty for a rest. */
  readonly notes: readonly PositionNote[];
}

/** The first cycle of a layer (1-based), one column a position. */
export function positionColumns(phrase: Phrase, layer: number): readonly PositionColumn[] {
  const { subdivision, startBeats } = layerShape(phrase, layer);
  const start = startBeats.mul(subdivision).valueOf();
  const notes = mainNotes(cycleNotes(phrase, layer, 1, 1));
  return Array.from({ length: phrase.cycle }, (_, i) => {
    const position = i + 1;
    return {
      position,
      count: syllable(phrase.meter, subdivision, start + i),
      onBeat: remainder(start + i, subdivision) === 0,
      notes: notes
        .filter(({ main }) => main.position === position)
        .map(({ main: { voice, level }, sticking }) => ({ sticking, voice, level })),
    };
  });
}
