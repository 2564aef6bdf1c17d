import type { Beam } from '../beams';
import type { Tuplet } from '../written-beat';
import type { Limb } from '../../phrase/model/limb';
import type { Level } from '../../phrase/model/level';
import type { SwingRatio } from '../../phrase/model/phrase';
import type { Voice } from '../../phrase/model/voice';
import type { Meter } from '../../time/meter';

/** The two voices of a staff for drums, and the way their stems point: common practice, no source. */
export const STAFF_VOICES = ['hands', 'feet'] as const;
export type StaffVoice = (typeof STAFF_VOICES)[number];
export const STEMS = { hands: 'up', feet: 'down' } as const;
/** Where signs, brackets and numbers stand: away from the other voice. */
export const AWAY = { hands: 'above', feet: 'below' } as const;

/** A head on the staff. */
export interface StaffNote {
  /** Such as "l3-b1-p0-R": layer, bar ("u0", "u1" before bar 1), partial of the bar, limb; "-g1" after it for a grace note. An xs:ID. */
  readonly id: string;
  readonly limb: Limb;
  readonly voice: Voice;
  readonly level: Level;
  /** 0 for a main note; grace notes of one step sound together. */
  readonly graceStep: number;
  /** Half staff spaces above the middle line. */
  readonly place: number;
  /** The score's layer made or changed it; never in the first layer, which makes everything. */
  readonly isNew: boolean;
}

/** What is struck at once in one voice, or a rest; as it is written, before any swing. */
export interface StaffEvent {
  /** The id of its first note; a rest's such as "l3-b1-p4-hands". */
  readonly id: string;
  /** Whole partials from bar 1 beat 1 to its onset. */
  readonly partial: number;
  /** How long it is written, partials. */
  readonly partials: number;
  /** 0 a quarter, 1 an eighth …, below 0 longer than a quarter; of the written value, in a tuplet before its ratio. */
  readonly flags: number;
  readonly dotted: boolean;
  /** Top of the staff first; empty for a rest. */
  readonly notes: readonly StaffNote[];
  /** Ahead of the notes, first to sound first: one for a flam, two for a drag. */
  readonly graces: readonly StaffNote[];
}

/** The events of one beat in one voice; beams join events by their numbers in it. */
export interface BeatGroup {
  readonly events: readonly StaffEvent[];
  readonly beams: readonly Beam[];
  /** Notes with flags of their own, by their numbers. */
  readonly flagged: readonly number[];
  /** Over all of the group. */
  readonly tuplet: Tuplet | undefined;
}

export interface ScoreBar {
  /** 1-based; 0 and below hold the pickup. */
  readonly number: number;
  /** Partials from bar 1 beat 1 to its first. */
  readonly partial: number;
  /** How many it has; the first bar of a pickup has only the beats that are needed. */
  readonly partials: number;
  /** A voice that is silent in all of the bar has no groups. */
  readonly voices: Readonly<Record<StaffVoice, readonly BeatGroup[]>>;
  /** Counted in the meter, one a partial. */
  readonly counts: readonly string[];
  /** Who strikes, one a partial: "R", "lR", "R+K"; empty where nobody does. */
  readonly stickings: readonly string[];
}

/** From where to where a cycle goes, partials from bar 1 beat 1. */
export interface CycleBracket {
  /** 1-based. */
  readonly cycle: number;
  readonly from: number;
  /** After its last partial, or where the score ends. */
  readonly to: number;
  /** The score does not show its start, or its end. */
  readonly isCut: boolean;
}

/** A layer of a phrase as it is written on a staff for drums. */
export interface Score {
  readonly title: string;
  /** 1-based. */
  readonly layer: number;
  readonly layerName: string;
  readonly meter: Meter;
  readonly meterText: string;
  /** Beats per minute, a dotted beat in compound meters. */
  readonly tempoBpm: number;
  /** Only where it moves what sounds. */
  readonly swing: SwingRatio | undefined;
  /** Partials to a beat. */
  readonly subdivision: number;
  readonly bars: readonly ScoreBar[];
  /** Partials after which the phrasing repeats. */
  readonly cycle: number;
  /** Partials from bar 1 beat 1 to the first cycle's start; negative where it begins before. */
  readonly displace: number;
  /** Partials after which all of it is the same again: one cycle or several. */
  readonly period: number;
  readonly brackets: readonly CycleBracket[];
  /** From bar 1 to the end it is played over and over. */
  readonly isRepeated: boolean;
}

/** All events of a bar's voice, in order. */
export const eventsOf = (bar: ScoreBar, voice: StaffVoice): readonly StaffEvent[] =>
  bar.voices[voice].flatMap(({ events }) => events);
