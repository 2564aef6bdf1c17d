import { VOICES, type Voice } from '../phrase/model/voice';
import type { AudioEngine } from './audio-engine';

/** Sounds what is struck on pads that make no sound of their own. */
export interface PadSound {
  /** Off at first: a real kit sounds by itself, and hearing a stroke twice is worse than not at all. */
  enabled: boolean;
  /** Sounds a stroke at once; `velocity` is 1 to 127. Nothing while not enabled. */
  strike(voice: Voice, velocity: number): void;
  /** Makes the samples of these voices ahead of their first stroke; of all when none are named. */
  prepare(voices?: readonly Voice[]): void;
}

export function createPadSound(engine: Pick<AudioEngine, 'playNow' | 'prepare'>): PadSound {
  return {
    enabled: false,
    strike(voice, velocity) {
      if (this.enabled) engine.playNow({ kind: 'voice', timeUs: 0, voice, velocity });
    },
    prepare: (voices = VOICES) => engine.prepare(voices),
  };
}
