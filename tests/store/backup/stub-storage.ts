import type { SettingsStorage } from '../../../src/store/backup/stored-settings';
import { SETTINGS_PREFIX } from '../../../src/store/settings-store';

/** Settings in memory, by name; something of another program lies beside them. */
export class StubStorage implements SettingsStorage {
  readonly items: Map<string, string>;
  /** Settings that cannot be written. */
  full: readonly string[] = [];

  constructor(settings: Readonly<Record<string, string>> = {}) {
    const entries = Object.entries(settings);
    this.items = new Map([
      ['of another program', '1'],
      ...entries.map(([name, text]) => [SETTINGS_PREFIX + name, text] as const),
    ]);
  }

  get length(): number {
    return this.items.size;
  }
  key(index: number): string | null {
    return [...this.items.keys()][index] ?? null;
  }
  getItem(key: string): string | null {
    return this.items.get(key) ?? null;
  }
  setItem(key: string, text: string): void {
    if (this.full.some((name) => SETTINGS_PREFIX + name === key))
      throw new DOMException('no room', 'QuotaExceededError');
    this.items.set(key, text);
  }
  removeItem(key: string): void {
    this.items.delete(key);
  }

  /** The settings by name. */
  get settings(): Record<string, string> {
    return Object.fromEntries(
      [...this.items].flatMap(([key, text]) =>
        key.startsWith(SETTINGS_PREFIX) ? [[key.slice(SETTINGS_PREFIX.length), text]] : [],
      ),
    );
  }
}
