import { graceStepUs } from '../match/timed-notes';
import type { PatternStroke } from '../phrase/decompose/target-pattern';
import type { Level } from '../phrase/model/level';
import { freeHand, type Limb } from '../phrase/model/limb';
import type { Division } from './written-grid';
import type { WrittenNote } from './written-notes';
import type { NoteOnPartial } from './written-partials';
import type { WrittenStretch } from './written-stretch';

/** How the notes of a stretch are read. */
export interface ReadingManner {
  readonly stretch: WrittenStretch;
  /** Beats of the meter a minute, as the file has it. */
  readonly bpm: number;
  readonly levelOf: (velocity: number) => Level;
}

/** Reads a note as a stroke of a limb, its grace notes by the hands that the file names, else by the other hand. */
export function strokeReader(
  { subdivision, swing }: Division,
  { stretch, bpm, levelOf }: ReadingManner,
): (note: NoteOnPartial, limb: Limb) => PatternStroke {
  const usPerTick = 60e6 / (bpm * stretch.ticksPerBeat);
  const stepUs = graceStepUs(60e6 / (bpm * subdivision), { swing });
  const soundOf = ({ voice, velocity }: WrittenNote) => ({ voice, level: levelOf(velocity) });
  return ({ main, graces }, limb) => {
    const hands = graces.map((grace) => grace.limb ?? freeHand(limb));
    const [only, ...others] = graces;
    // A drag whose second grace note rests leaves the first where it was; only this program writes that.
    const isAlone = only?.isGrace === true && others.length === 0;
    const isAhead = isAlone && (main.tick - only.tick) * usPerTick > 1.5 * stepUs;
    return {
      limb,
      ...soundOf(main),
      ...(hands.length > 0 && {
        graces: isAhead ? [...hands, freeHand(limb)] : hands,
        graceSounds: [...graces.map(soundOf), ...(isAhead ? [null] : [])],
      }),
    };
  };
}
