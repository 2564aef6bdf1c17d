import { KEY_STROKES } from '../../../../midi/key-strokes';
import { takesKeys } from '../../../shell/space-bar';

/** Keys that move the focus, or press what has it. */
const KEYS_OF_THE_FOCUS: ReadonlySet<string> = new Set([
  'Tab',
  'Enter',
  'ArrowUp',
  'ArrowDown',
  'ArrowLeft',
  'ArrowRight',
  'Shift',
  'Control',
  'Alt',
  'AltGraph',
  'Meta',
  'CapsLock',
  'Dead',
  'Unidentified',
]);

/** Whether a key drums where the computer keyboard is played on. */
export const isDrum = ({ code }: Pick<KeyboardEvent, 'code'>): boolean => KEY_STROKES.has(code);

/**
 * The key of a press as a command may have it, a letter small; undefined where the press belongs to the browser or to
 * what has the focus. The space bar and Esc are only needed where somebody writes or chooses from an open list.
 */
export function commandKey(event: KeyboardEvent): string | undefined {
  const { key, target, defaultPrevented, ctrlKey, altKey, metaKey } = event;
  if (defaultPrevented || ctrlKey || altKey || metaKey || KEYS_OF_THE_FOCUS.has(key))
    return undefined;
  if (key === 'Escape')
    return target instanceof HTMLSelectElement && takesKeys(target) ? undefined : key;
  if (takesKeys(target)) return undefined;
  // A letter chooses from a list that is closed, too.
  if (key !== ' ' && target instanceof HTMLSelectElement) return undefined;
  return key.length === 1 ? key.toLowerCase() : key;
}
