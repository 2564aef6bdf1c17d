import type { Beats } from '../../time/beats';
import type { Level } from './level';
import type { Limb } from './limb';
import type { Voice } from './voice';

/** One note of a target: what should be played, and where it came from. */
export interface Note {
  /**
   * Exact beats from bar 1 beat 1, as it should sound: swung where the layer swings. A pickup is
   * negative. A grace note has its main note's onset.
   */
  readonly onset: Beats;
  /** Steps ahead of the onset: 0 for a main note, 1 for the grace note next to it, 2 for the one before that. */
  readonly graceStep: number;
  /**
   * The limb of the main note with its onset that it is a grace note of: a limb has one main note at a time. Undefined
   * for a main note.
   */
  readonly graceOf: Limb | undefined;
  /** 1-based; 0 holds the pickup. */
  readonly bar: number;
  /** 1-based exact beat in the bar, as it is written: before any swing. */
  readonly beat: Beats;
  /** 1-based; 0 for the pickup. */
  readonly cycle: number;
  /** 1-based partial of the cycle; for the pickup, minus the partials before the downbeat. */
  readonly position: number;
  readonly limb: Limb;
  readonly voice: Voice;
  readonly level: Level;
  /** 1-based numbers of the layers that made or changed this note, ascending. */
  readonly layers: readonly number[];
}

/** Who strikes what, and how loud. */
export type NoteSound = Pick<Note, 'limb' | 'voice' | 'level'>;
