import { cycleNotes } from '../phrase/layers/expand';
import { layerShape } from '../phrase/layers/layer-shape';
import type { Note } from '../phrase/model/note';
import type { Phrase } from '../phrase/model/phrase';
import { syllable } from '../phrase/model/syllable';

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
  const notes = cycleNotes(phrase, layer, 1, 1);
  return Array.from({ length: phrase.cycle }, (_, i) => {
    const position = i + 1;
    const here = notes.filter((note) => note.position === position);
    return {
      position,
      count: syllable(phrase.meter, subdivision, start + i),
      onBeat: (((start + i) % subdivision) + subdivision) % subdivision === 0,
      notes: here.filter(({ graceStep }) => graceStep === 0).map((note) => told(note, here)),
    };
  });
}

function told(note: Note, here: readonly Note[]): PositionNote {
  const graces = here
    .filter(({ graceStep, voice }) => graceStep > 0 && voice === note.voice)
    .map(({ limb }) => limb.toLowerCase());
  return { sticking: graces.join('') + note.limb, voice: note.voice, level: note.level };
}
