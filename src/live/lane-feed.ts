import { VERDICT_CODES } from '../match/verdict';
import type { Note } from '../phrase/model/note';

/** Codes in LaneFeed's columns; 0 is always "nothing to say". */
export const LANE_VERDICTS = VERDICT_CODES;
export const LANE_LEVEL_VERDICTS = ['as written', 'too loud', 'too soft', 'not judged'] as const;
export const LANE_SET_ASIDE = ['', 'double trigger', 'crosstalk', 'command'] as const;

export interface LaneMark {
  readonly timeUs: number;
  readonly kind: 'bar' | 'beat' | 'partial';
  readonly bar: number;
  /** Counting syllable: "2", "e", "&", "a". */
  readonly label: string;
  /** Whether its bar has no click. */
  readonly isSilent?: boolean;
  /** Whether its bar is one of click ahead of what is due: at the take's beginning, or where the player is brought back. */
  readonly isCountIn?: boolean;
}

export interface LaneCycle {
  readonly startUs: number;
  readonly endUs: number;
  /** 1-based within the realignment: cycle `number` of `of`. */
  readonly number: number;
  readonly of: number;
}

/** A note that the app plays. */
export interface AccompanyingNote {
  readonly timeUs: number;
  readonly note: Pick<Note, 'voice' | 'level' | 'limb' | 'graceStep'>;
}

/**
 * What the lane draws, as columns of plain numbers that the live path writes and the frame reads;
 * no proxies, nothing allocated per stroke. Times are integer microseconds from bar 1 beat 1, notes
 * and marks in time order, strokes in order of arrival. Arrays may be longer than their counts.
 */
export interface LaneFeed {
  readonly noteCount: number;
  readonly noteTimeUs: Float64Array;
  /** Index into VOICES. */
  readonly noteVoice: Uint8Array;
  /** Index into LEVELS. */
  readonly noteLevel: Uint8Array;
  /** Index into LIMBS. */
  readonly noteLimb: Uint8Array;
  /** 0 for a main note. */
  readonly noteGraceStep: Uint8Array;
  /** Index of the note it is a grace note of; its own for a main note, and where the take stopped between the two. */
  readonly noteMain: Int32Array;
  /** Half-width of the hit window. */
  readonly noteReachUs: Float64Array;
  /** How far from the note still counts as in time. */
  readonly noteToleranceUs: Float64Array;
  /** 1-based; 0 holds the pickup. */
  readonly noteBar: Int32Array;
  /** Exact beat in the bar as a mixed number: "2 1/3". */
  readonly noteBeatLabel: readonly string[];
  /** 1-based; 0 for the pickup. */
  readonly noteCycle: Int32Array;
  /** 1-based partial of the cycle; negative in the pickup. */
  readonly notePosition: Int32Array;
  /** Index into LANE_VERDICTS. */
  readonly noteVerdict: Uint8Array;
  /** Index into LANE_LEVEL_VERDICTS. */
  readonly noteLevelVerdict: Uint8Array;
  /** Stroke that answers the note, or -1. */
  readonly noteStroke: Int32Array;

  readonly strokeCount: number;
  readonly strokeTimeUs: Float64Array;
  readonly strokeVoice: Uint8Array;
  readonly strokeVelocity: Uint8Array;
  /** Note that the stroke answers, or -1. */
  readonly strokeNote: Int32Array;
  /** Index into LANE_SET_ASIDE. */
  readonly strokeSetAside: Uint8Array;

  /** What the app plays, which nobody is asked for; as near to time order as notes of one onset are. */
  readonly accompaniment: readonly AccompanyingNote[];
  readonly marks: readonly LaneMark[];
  readonly cycles: readonly LaneCycle[];
  /** The voices that are written or played by the app, indices into VOICES, ascending. */
  readonly rows: readonly number[];
}
