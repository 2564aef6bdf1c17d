import { settingNames, SETTINGS_PREFIX, UNSAVED_EDITS } from '../settings-store';

/** Where settings are stored, as far as a backup asks; `localStorage` is one. */
export type SettingsStorage = Pick<
  Storage,
  'getItem' | 'setItem' | 'removeItem' | 'key' | 'length'
>;

/** Whether a setting goes into backups and comes out of them: what a tab notes for itself does not. */
export const isBackedUp = (name: string): boolean => !name.startsWith(UNSAVED_EDITS);

/** The settings as they stand there, damaged ones too, by name; none where the page may keep nothing. */
export function storedSettings(storage: SettingsStorage | null): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  try {
    for (const name of settingNames(storage).filter(isBackedUp).toSorted()) {
      const text = storage?.getItem(SETTINGS_PREFIX + name);
      if (text !== undefined && text !== null) found.set(name, text);
    }
  } catch {
    // Forbidden: nothing is kept there.
  }
  return found;
}

/**
 * Writes settings, all of them or none; none where the page may keep nothing.
 *
 * @returns what puts back those that were there before
 * @throws where one of them cannot be written
 */
export function writeSettings(
  storage: SettingsStorage | null,
  settings: ReadonlyMap<string, string>,
): () => void {
  const undone: (() => void)[] = [];
  const undo = () => undone.reverse().forEach((back) => back());
  if (!storage) return undo;
  try {
    for (const [name, text] of settings) {
      const key = SETTINGS_PREFIX + name;
      const before = storage.getItem(key);
      undone.push(() => (before === null ? storage.removeItem(key) : storage.setItem(key, before)));
      storage.setItem(key, text);
    }
  } catch (error) {
    undo();
    throw error;
  }
  return undo;
}
