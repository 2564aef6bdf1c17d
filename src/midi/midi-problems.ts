/**
 * Everything that can be the matter with MIDI input, and what to do: the one place where these
 * sentences stand. `{port}` is the name of the port.
 */
export const MIDI_STATES = {
  unsupported: {
    sentence: 'This browser cannot listen to MIDI devices.',
    remedy:
      'Use Chrome, Edge, Opera or Firefox on a computer over https or localhost. The computer keyboard, the pads on the screen and MIDI files work here too.',
  },
  ask: {
    sentence: 'The kit is not connected to this page yet.',
    remedy: 'Press the button, and allow MIDI when the browser asks.',
  },
  asking: {
    sentence: 'The browser is asking whether this page may listen to MIDI devices.',
    remedy:
      'Allow it. Where the browser first installs a site permission, press the button again afterwards.',
  },
  denied: {
    sentence: 'The browser does not let this page listen to MIDI devices.',
    remedy:
      'Allow MIDI for this page in the settings beside its address, then press the button again.',
  },
  'system failure': {
    sentence: 'The MIDI system of this computer did not answer.',
    remedy:
      'Close other music programs, restart the browser and try again; on Windows restart the MIDI service, on Linux check that ALSA and its sequencer are there.',
  },
  'no device': {
    sentence: 'No MIDI device is there.',
    remedy:
      'Plug in the cable of the kit and switch the module on; it appears here by itself. If it does not, look at "My kit does not appear" on the Kit screen.',
  },
  choose: {
    sentence: 'There is more than one MIDI device.',
    remedy: 'Strike your kit, or choose the one it is on.',
  },
  busy: {
    sentence: 'Another program holds {port}.',
    remedy: 'Close that program or let go of the port there, then choose the port again.',
  },
  ready: { sentence: 'Listening to {port}.', remedy: '' },
  unplugged: {
    sentence: '{port} is unplugged.',
    remedy: 'Plug it in again: a take that runs goes on by itself.',
  },
} as const;
export type MidiStateKind = keyof typeof MIDI_STATES;

/** What becomes of the strokes of a port that is not the chosen one. */
export const secondKitWords = (other: string, port: string): string =>
  `Strokes come from ${other}, too, and are left out: ${port} is listened to. To play on ${other}, choose it as MIDI input on the Kit screen.`;

/** What a refused request for MIDI means, from the name of the error. */
export function stateOfRefusal(error: unknown): 'denied' | 'system failure' {
  const name = error instanceof Error || error instanceof DOMException ? error.name : '';
  // older browsers refuse with SecurityError, as does a page whose policy forbids MIDI
  return name === 'NotAllowedError' || name === 'SecurityError' ? 'denied' : 'system failure';
}
