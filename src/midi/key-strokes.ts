import type { Level } from '../phrase/model/level';
import type { Voice } from '../phrase/model/voice';

/** What a key strikes. Keys are named by their place (KeyboardEvent.code), whatever is printed on them. */
export interface KeyStroke {
  readonly voice: Voice;
  /** Without the shift key; with it everything is an accent. */
  readonly level: Level;
}

/** Home row, both hands mirrored around the snare: taps. The row above: the same pads, ghosts. */
const PADS: readonly (readonly [tap: string, ghost: string, voice: Voice])[] = [
  ['KeyF', 'KeyR', 'snare'],
  ['KeyJ', 'KeyU', 'snare'],
  ['KeyD', 'KeyE', 'high tom'],
  ['KeyS', 'KeyW', 'mid tom'],
  ['KeyA', 'KeyQ', 'floor tom'],
  ['KeyG', 'KeyT', 'side stick'],
  ['KeyH', 'KeyY', 'hi-hat open'],
  ['KeyK', 'KeyI', 'hi-hat closed'],
  ['KeyL', 'KeyO', 'ride'],
  ['Semicolon', 'KeyP', 'crash'],
  ['Space', 'KeyB', 'bass drum'],
  ['KeyN', 'KeyM', 'hi-hat pedal'],
];

export const KEY_STROKES: ReadonlyMap<string, KeyStroke> = new Map(
  PADS.flatMap(([tap, ghost, voice]): [string, KeyStroke][] => [
    [tap, { voice, level: 'tap' }],
    [ghost, { voice, level: 'ghost' }],
  ]),
);
