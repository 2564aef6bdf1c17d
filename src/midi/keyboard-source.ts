import { GENERAL_MIDI } from '../kit/built-in-kits';
import { USUAL_VELOCITIES } from '../phrase/model/level';
import { KEY_STROKES } from './key-strokes';
import { strike } from './strike';
import type { StrokeSink, StrokeSource } from './stroke-source';
import { neverChanges } from './subscribers';

/** What the source needs of a page: where keys are heard. */
export interface KeyTarget {
  addEventListener(type: 'keydown', listener: (event: KeyboardEvent) => void): void;
  removeEventListener(type: 'keydown', listener: (event: KeyboardEvent) => void): void;
}

/**
 * The computer keyboard as a kit, keys as `KEY_STROKES` lays them out. A held key strikes once; keys with
 * Ctrl, Alt or Meta belong to the browser; nobody drums while writing in a field.
 */
export function createKeyboardSource(target: KeyTarget = window): StrokeSource {
  let sink: StrokeSink | undefined;

  function onKey(event: KeyboardEvent): void {
    if (!sink || event.repeat || event.ctrlKey || event.altKey || event.metaKey) return;
    const key = KEY_STROKES.get(event.code);
    if (!key || isForElement(event)) return;
    // or the page would scroll and search
    event.preventDefault();
    const level = event.shiftKey ? 'accent' : key.level;
    strike(sink, event.timeStamp, key.voice, USUAL_VELOCITIES[level]);
  }

  return {
    name: 'Computer keyboard',
    kit: GENERAL_MIDI,
    state: {
      kind: 'ready',
      sentence:
        'The keys F and J are the snare, Space is the bass drum. Shift makes an accent, the row above a ghost.',
      remedy: '',
    },
    start(next) {
      if (!sink) target.addEventListener('keydown', onKey);
      sink = next;
    },
    stop() {
      sink = undefined;
      target.removeEventListener('keydown', onKey);
    },
    subscribe: neverChanges,
  };
}

/** Whether the focused element needs the key itself: writing in a field, Space on a button. */
function isForElement({ target, code }: KeyboardEvent): boolean {
  const element = target as { closest?: (selector: string) => unknown } | null;
  const needs =
    code === 'Space'
      ? 'input, textarea, select, [contenteditable], button, a, summary, [role=button]'
      : 'input, textarea, select, [contenteditable]';
  return Boolean(element?.closest?.(needs));
}
