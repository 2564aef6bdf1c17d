/** Keys by their common names where the browser's are others. */
const KEY_NAMES: ReadonlyMap<string, string> = new Map([
  [' ', 'space bar'],
  ['Escape', 'Esc'],
  ['PageUp', 'Page Up'],
  ['PageDown', 'Page Down'],
]);

/** What is printed on a key. @example keyName('x') // => 'X' */
export const keyName = (key: string): string =>
  KEY_NAMES.get(key) ?? (key.length === 1 ? key.toUpperCase() : key);
