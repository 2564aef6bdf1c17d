import type { Voice } from '../phrase/model/voice';

/** One hit that arrived from the kit. */
export interface Stroke {
  /** Integer microseconds; in a take, from bar 1 beat 1. */
  readonly timeUs: number;
  readonly voice: Voice;
  /** 1 to 127. */
  readonly velocity: number;
  /** The MIDI note number of the pad zone: levels and faults are told per pad. */
  readonly pad: number;
}
