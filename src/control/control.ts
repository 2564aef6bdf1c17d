import type { Command } from './command';

/** A pad or pedal of the kit, by the MIDI note of the zone that was struck. */
export interface PadControl {
  readonly kind: 'pad';
  readonly note: number;
}

/** What a foot switch sends: a note, a controller or a program change, of one channel. */
export interface SwitchControl {
  readonly kind: 'switch';
  readonly sends: SwitchMessage;
  /** 1 to 16, as MIDI devices count them. */
  readonly channel: number;
  /** Of the note, the controller or the program, 0 to 127. */
  readonly number: number;
}

export const SWITCH_MESSAGES = ['note', 'controller', 'program'] as const;
export type SwitchMessage = (typeof SWITCH_MESSAGES)[number];
/** From this value of its controller on a switch is on (MIDI 1.0: 0 to 63 off, 64 to 127 on). */
export const SWITCH_ON = 64;

/** A key of the computer keyboard, by what is printed on it (KeyboardEvent.key); letters are small. */
export interface KeyControl {
  readonly kind: 'key';
  readonly key: string;
}

export type Control = PadControl | SwitchControl | KeyControl;

/** A control and the one command that it gives. */
export interface CommandControl {
  readonly command: Command;
  readonly control: Control;
}

/**
 * Tells controls apart.
 *
 * @example controlKey({ kind: 'pad', note: 49 }) // => 'pad 49'
 */
export function controlKey(control: Control): string {
  switch (control.kind) {
    case 'pad':
      return `pad ${control.note}`;
    case 'switch':
      return `${control.sends} ${control.number} of channel ${control.channel}`;
    case 'key':
      return `key ${control.key}`;
  }
}
