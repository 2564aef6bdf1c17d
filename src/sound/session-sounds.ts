import type { Level } from '../phrase/model/level';
import type { Voice } from '../phrase/model/voice';
import type { Click } from './click-pattern';
import type { SoundEvent } from './sound-event';

/** Whether the layer's own notes are played: not at all, with the click, or in its place. */
export const REFERENCE_MODES = ['off', 'along', 'alone'] as const;
export type ReferenceMode = (typeof REFERENCE_MODES)[number];

/** Chosen, not measured: by the level law 14.1 dB from ghost to tap and 7.7 dB from tap to accent. */
const REFERENCE_VELOCITIES: Readonly<Record<Level, number>> = {
  ghost: 32,
  tap: 72,
  accent: 112,
};

/** Chosen, not measured. */
const CLICK_VELOCITY = 100;

export interface ReferenceNote {
  /** Integer microseconds from bar 1 beat 1. */
  readonly timeUs: number;
  readonly voice: Voice;
  readonly level: Level;
}

/**
 * Click and reference voices as one list in time order, a click before a voice of the same time.
 * With `alone` the click is silent from bar 1 beat 1 on; the count-in is always heard, and so is the accompaniment.
 *
 * @example sessionSounds('alone', [{ timeUs: 0, sound: 'bar' }], [{ timeUs: 0, voice: 'snare', level: 'ghost' }]) // => [{ kind: 'voice', timeUs: 0, voice: 'snare', velocity: 32 }]
 */
export function sessionSounds(
  mode: ReferenceMode,
  clicks: readonly Click[],
  notes: readonly ReferenceNote[],
  accompaniment: readonly ReferenceNote[] = [],
): SoundEvent[] {
  const heard = mode === 'alone' ? clicks.filter(({ timeUs }) => timeUs < 0) : clicks;
  const played = mode === 'off' ? accompaniment : [...notes, ...accompaniment];
  return [
    ...heard.map(({ timeUs, sound }): SoundEvent => ({
      kind: 'click',
      timeUs,
      sound,
      velocity: CLICK_VELOCITY,
    })),
    ...played.map(({ timeUs, voice, level }): SoundEvent => ({
      kind: 'voice',
      timeUs,
      voice,
      velocity: REFERENCE_VELOCITIES[level],
    })),
  ].sort((a, b) => a.timeUs - b.timeUs);
}
