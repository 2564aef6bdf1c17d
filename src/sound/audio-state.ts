/**
 * How the sound is. `off`: not started. `running`: heard. `suspended`: paused by browser or system,
 * a gesture brings it back. `failed`: it needs the player to change something.
 */
export type AudioStateName = 'off' | 'running' | 'suspended' | 'failed';

export interface AudioState {
  readonly name: AudioStateName;
  /** For the player: what is the matter and what to do. */
  readonly sentence: string;
}

export const AUDIO_STATES = {
  off: { name: 'off', sentence: 'Sound is off until practice starts.' },
  running: { name: 'running', sentence: 'Sound is on.' },
  suspended: {
    name: 'suspended',
    sentence: 'The browser has paused the sound. Click anywhere or press a key to bring it back.',
  },
  unsupported: {
    name: 'failed',
    sentence:
      'This browser cannot make sound from a page. Use a current browser to hear the click.',
  },
  notLoaded: {
    name: 'failed',
    sentence: 'The sound part of the page did not load. Check the connection and reload the page.',
  },
  frozen: {
    name: 'failed',
    sentence:
      'The sound output stands still. Check that the output device is plugged in, then click anywhere to start the sound again.',
  },
  silent: {
    name: 'failed',
    sentence:
      'The first click came due and the page made no sound. Reload the page; if that does not help, choose another output device.',
  },
} as const satisfies Record<string, AudioState>;
