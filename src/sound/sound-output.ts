import type { SoundEvent } from './sound-event';

/** A sound that waits for its time. */
export interface QueuedSound {
  /** Silences it; without effect once it has ended. */
  cancel(): void;
}

/** Sounds that can be silenced all at once. */
export interface SoundQueue {
  /** Sounds the event at `atSeconds` of audio time. The event's own time plays no part here. */
  play(event: SoundEvent, atSeconds: number): QueuedSound;
  /** Silences everything at once, sounding or waiting, and takes nothing more. */
  close(): void;
}

/** Where scheduled sounds go: the audio engine, or a stand-in. */
export interface SoundOutput {
  /** Whether audio time is moving and sounds would be heard. */
  readonly running: boolean;
  /** Audio time, seconds: nothing can sound before it any more. */
  readonly currentSeconds: number;
  openQueue(): SoundQueue;
}
