import { GENERAL_MIDI } from '../kit/built-in-kits';
import type { Voice } from '../phrase/model/voice';
import { USUAL_VELOCITIES } from '../phrase/model/level';
import { strike } from './strike';
import type { StrokeSink, StrokeSource } from './stroke-source';
import { neverChanges } from './subscribers';

export interface PadSource extends StrokeSource {
  /** A touch on the screen: milliseconds on the performance clock (the event's timeStamp), velocity 1 to 127. */
  touch(timeMs: number, voice: Voice, velocity: number): void;
}

/** Pads on the screen; the component that draws them calls `touch`. */
export function createPadSource(): PadSource {
  let sink: StrokeSink | undefined;
  return {
    name: 'Pads on the screen',
    kit: GENERAL_MIDI,
    state: {
      kind: 'ready',
      sentence:
        'Strike the middle of a pad for an accent, farther out for a tap, its edge for a ghost.',
      remedy: '',
    },
    start(next) {
      sink = next;
    },
    stop() {
      sink = undefined;
    },
    subscribe: neverChanges,
    touch(timeMs, voice, velocity) {
      if (sink) strike(sink, timeMs, voice, velocity);
    },
  };
}

/** Limits of the zones as shares of the pad's radius. Chosen, not measured. */
const ACCENT_WITHIN = 0.4;
const TAP_WITHIN = 0.75;

/**
 * Velocity of a touch: by its pressure where the device measures one (0.5 is what a device says that does
 * not, 0 and 1 are no measurements either), else by how far from the middle it is, 0 to 1.
 *
 * @example touchVelocity(0.25, 0) // => 32
 */
export function touchVelocity(pressure: number, distance: number): number {
  if (pressure > 0 && pressure < 1 && pressure !== 0.5)
    return Math.max(1, Math.round(pressure * 127));
  if (distance <= ACCENT_WITHIN) return USUAL_VELOCITIES.accent;
  return distance <= TAP_WITHIN ? USUAL_VELOCITIES.tap : USUAL_VELOCITIES.ghost;
}
