import type { Voice } from '../phrase/model/voice';

/** A pad zone of the kit: one MIDI note number. Everything about dynamics and faults is told per pad. */
export interface Pad {
  /** MIDI note number, 0 to 127. */
  readonly note: number;
  /** The pad's name as the player knows it: "snare rim". */
  readonly name: string;
  readonly voice: Voice;
  /** Zones with one of these names shake together: crosstalk is not looked for within a group. */
  readonly group: string;
  /** Loudest velocity that is a ghost, and softest that is an accent; the app's defaults when absent. */
  readonly ghostMax?: number;
  readonly accentMin?: number;
  /** A weaker second stroke of the pad's group within this time is a double trigger; the default when absent. */
  readonly retriggerMs?: number;
  /** This note's voice follows the hi-hat's opening as controller 4 tells it. */
  readonly followsOpening?: boolean;
}

export interface HiHatOpening {
  readonly controller: number;
  /** Whether the controller's high end means open or closed. */
  readonly highMeans: 'open' | 'closed';
  /** Openness (0 closed to 1 open) from which a `followsOpening` pad is struck open. */
  readonly openFrom: number;
}

/** How one group of pads shakes another: a faint stroke of `answers` beside a strong one of `struck`. */
export interface CrosstalkMask {
  readonly struck: string;
  readonly answers: string;
  /** Before or after the strong stroke. */
  readonly withinMs: number;
  /** With at most this share of its velocity, in percent. */
  readonly upToPercent: number;
}

/** A kit's note map, checked. */
export interface Kit {
  readonly title: string;
  readonly pads: readonly Pad[];
  readonly opening: HiHatOpening;
  /** Learned pairs of groups; the default holds for every other pair. */
  readonly crosstalk?: readonly CrosstalkMask[];
}

/** What a kit calls the pad of a note. @example nameOfPad({ pads: [] }, 38) // => 'note 38' */
export const nameOfPad = ({ pads }: Pick<Kit, 'pads'>, note: number): string =>
  pads.find((pad) => pad.note === note)?.name ?? `note ${note}`;

/** Velocity limits of a pad, 1 to 127. */
export interface LevelBoundaries {
  readonly ghostMax: number;
  readonly accentMin: number;
}
