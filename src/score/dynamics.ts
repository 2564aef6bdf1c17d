import { LIMBS, type Limb } from '../phrase/model/limb';
import { asksLevel, VOICES, type Voice } from '../phrase/model/voice';
import { groupBy } from '../time/group-by';
import { contrastDb } from './contrast';
import { isTimed } from './figures';
import type { JudgedNote } from './judged-note';
import { separation } from './separation';

/** How far accents and ghosts lie apart; undefined where either was not written or not answered. */
export interface Dynamics {
  readonly contrastDb: number | undefined;
  readonly separation: number | undefined;
  /** Answered accents and ghosts the figures rest on. */
  readonly accents: number;
  readonly ghosts: number;
}

export interface DynamicsReport {
  readonly overall: Dynamics;
  /** Only voices, and limbs, that have both. */
  readonly byVoice: ReadonlyMap<Voice, Dynamics>;
  readonly byLimb: ReadonlyMap<Limb, Dynamics>;
}

/**
 * Contrast and separation of the answered notes of the right voice, by their written level. The hi-hat
 * pedal and foot splash, which ask no level, and strokes that tell none stay out. Overall compares pads with each other and so
 * depends on how evenly the kit is set up; per voice it does not.
 *
 * @example dynamicsOf([]).overall.contrastDb // => undefined
 */
export function dynamicsOf(notes: readonly JudgedNote[]): DynamicsReport {
  const heard = notes.filter(tellsLevel);
  return {
    overall: compare(heard),
    byVoice: compareBy(heard, VOICES, ({ due }) => due.note.voice),
    byLimb: compareBy(heard, LIMBS, ({ due }) => due.note.limb),
  };
}

/**
 * Whether a note's stroke counts in figures of levels: in the written voice, one that is asked for levels, and from a pad
 * that sends several velocities.
 *
 * @example tellsLevel({ due: { note: { voice: 'snare' } }, verdict: 'late', levelVerdict: undefined }) // => false
 */
export const tellsLevel = (note: JudgedNote): boolean =>
  isTimed(note) && asksLevel(note.due.note.voice) && note.levelVerdict !== undefined;

function compareBy<Key>(
  heard: readonly JudgedNote[],
  keys: readonly Key[],
  keyOf: (note: JudgedNote) => Key,
): ReadonlyMap<Key, Dynamics> {
  const groups = groupBy(heard, keyOf);
  return new Map(
    keys
      .map((key) => [key, compare(groups.get(key) ?? [])] as const)
      .filter(([, { contrastDb: contrast }]) => contrast !== undefined),
  );
}

function compare(heard: readonly JudgedNote[]): Dynamics {
  const accents: number[] = [];
  const ghosts: number[] = [];
  for (const { due, stroke } of heard) {
    if (!stroke) continue;
    if (due.note.level === 'accent') accents.push(stroke.velocity);
    if (due.note.level === 'ghost') ghosts.push(stroke.velocity);
  }
  return {
    contrastDb: contrastDb(accents, ghosts),
    separation: separation(accents, ghosts),
    accents: accents.length,
    ghosts: ghosts.length,
  };
}
