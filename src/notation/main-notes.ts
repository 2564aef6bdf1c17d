import type { Limb } from '../phrase/model/limb';

/** What a note of a cycle says of its place. */
interface NoteOfCycle {
  readonly position: number;
  readonly limb: Limb;
  /** The limb of the main note of its position that it is a grace note of. */
  readonly graceOf: Limb | undefined;
}

/** A main note with the grace notes ahead of it. */
export interface MainNote<N> {
  readonly main: N;
  /** First to sound first. */
  readonly graces: readonly N[];
  /** Grace notes small, ahead of the limb: "lR". */
  readonly sticking: string;
}

/**
 * The main notes of one cycle, or of a pickup, in the order of the list, each with its own grace notes.
 *
 * @example mainNotes([{ position: 1, limb: 'L', graceOf: 'R' }, { position: 1, limb: 'R' }, { position: 1, limb: 'K' }]).map(({ sticking }) => sticking) // => ['lR', 'K']
 */
export function mainNotes<N extends NoteOfCycle>(notes: readonly N[]): readonly MainNote<N>[] {
  const all = notes.filter(({ graceOf }) => graceOf !== undefined);
  return notes
    .filter(({ graceOf }) => graceOf === undefined)
    .map((main) => {
      const graces = all.filter(
        ({ position, graceOf }) => position === main.position && graceOf === main.limb,
      );
      const letters = graces.map(({ limb }) => limb.toLowerCase()).join('');
      return { main, graces, sticking: letters + main.limb };
    });
}
