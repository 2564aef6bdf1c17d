import type { Limb } from '../model/limb';
import type { TimelineNote } from '../layers/timeline';

/** What a body may not be able to do, with what it says to the player. `{limb}` and `{from}` stand for facts. */
export const PLAYABILITY_MESSAGES = {
  RATE: 'The {limb} has to keep up more than 7 strokes a second {from}; slow down, thin out, or give strokes to another limb.',
  BURST:
    'The {limb} has three strokes in a row closer than 100 ms {from}, beyond the fastest hand measured; slow down or give one of them to another limb.',
  MOVE: 'The {limb} has too little time to move between voices {from}; slow down, or choose voices that are closer together.',
  CROSSED:
    'The right hand reaches far to the left of the left hand {from}; exchange the hands or choose other voices.',
  LIMB_TWICE: 'The {limb} is asked for two strokes at once; give one of them to another limb.',
  GRACE_AND_MAIN:
    'The {limb} is asked for a grace note and a main note at once; give one of them to the other hand.',
  FOOT_ON_HAND_VOICE: 'The {limb} is asked for a voice that only a hand can play; use a hand.',
  HAND_ON_FOOT_VOICE: 'The {limb} is asked for a voice that only a foot can play; use a foot.',
  HI_HAT_FOOT:
    'The left foot cannot open and close the hi-hat that fast {from}; leave it open or closed for longer.',
} as const;

export type PlayabilityCode = keyof typeof PLAYABILITY_MESSAGES;

/** Notes that become unplayable above a tempo. */
export interface Hazard {
  readonly code: PlayabilityCode;
  readonly limb: Limb;
  readonly notes: readonly TimelineNote[];
  /** Playable up to and at this tempo; 0 when at none. */
  readonly aboveBpm: number;
}

/** Gathers what a tempo makes unplayable, and up to which tempo all of it would be playable. */
export class HazardWatch {
  readonly bpm: number;
  readonly hazards: Hazard[] = [];
  playableUpToBpm = Infinity;

  constructor(bpm: number) {
    this.bpm = bpm;
  }

  /** Whether the tempo is above a limit, which is taken note of. */
  isAbove(limitBpm: number): boolean {
    if (limitBpm < this.playableUpToBpm) this.playableUpToBpm = limitBpm;
    return this.bpm > limitBpm;
  }

  add(code: PlayabilityCode, limb: Limb, aboveBpm: number, notes: readonly TimelineNote[]): void {
    this.hazards.push({ code, limb, notes, aboveBpm });
  }
}

/**
 * Above which tempo a stretch of beats is shorter than so many seconds, to a millionth, so that a limit itself is
 * playable whatever the rounding of the division.
 *
 * @example tempoFor(2, 0.5) // => 240
 */
export const tempoFor = (beats: number, seconds: number): number =>
  Math.round((beats * 60e6) / seconds) / 1e6;
