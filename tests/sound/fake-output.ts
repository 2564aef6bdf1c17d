import type { ClockMap } from '../../src/clock/audio-clock-map';
import { resolutionOf } from '../../src/clock/clock-resolution';
import type { SoundEvent } from '../../src/sound/sound-event';
import type { SoundOutput } from '../../src/sound/sound-output';

export interface FakeSound {
  readonly event: SoundEvent;
  readonly atSeconds: number;
  /** Audio time at which it was queued. */
  readonly queuedSeconds: number;
  cancelled: boolean;
}

/** An output that writes down what it is told. Advance `currentSeconds` by hand. */
export class FakeOutput implements SoundOutput {
  running = true;
  currentSeconds = 0;
  closed = false;
  readonly sounds: FakeSound[] = [];

  openQueue() {
    return {
      play: (event: SoundEvent, atSeconds: number) => {
        const sound: FakeSound = {
          event,
          atSeconds,
          queuedSeconds: this.currentSeconds,
          cancelled: false,
        };
        this.sounds.push(sound);
        return { cancel: () => void (sound.cancelled = true) };
      },
      close: () => void (this.closed = true),
    };
  }

  /** Times of what sounds in the end, microseconds, in order of queueing. */
  get heardUs(): number[] {
    return this.sounds.filter((s) => !s.cancelled).map((s) => s.event.timeUs);
  }
}

/** A map that is known exactly: audio ms = offsetMs + performance ms · (1 + ppm·1e-6). */
export function exactMap(offsetMs: number, ppm = 0): ClockMap & { offsetMs: number } {
  const rate = 1 + ppm * 1e-6;
  return {
    offsetMs,
    observe: () => undefined,
    audioSecondsAt(ms) {
      return (this.offsetMs + ms * rate) / 1000;
    },
    performanceMsAt(seconds) {
      return (seconds * 1000 - this.offsetMs) / rate;
    },
    quality: {
      name: 'verified',
      pairs: 20,
      spreadMs: 0,
      refused: 0,
      uncertaintyMs: 0,
      ratePpm: ppm,
      resolution: resolutionOf(0.1),
    },
    residuals: () => [],
  };
}
