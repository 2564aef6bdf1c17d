import * as v from 'valibot';

/** Part of every key: raise it when the meaning of a setting changes. */
export const SETTINGS_PREFIX = 'layered-phrases.1.';
/** How the names of texts begin that a tab notes until the database has them: they are its own, and no choice. */
export const UNSAVED_EDITS = 'unsaved edits';

/**
 * The last choices, read before the first paint and so not from the database. A choice that is
 * missing, damaged or unreadable is the fallback; one that cannot be written is forgotten with the page.
 */
export class SettingsStore {
  readonly #storage: Storage | null;
  readonly #inMemory = new Map<string, unknown>();

  constructor(storage: Storage | null = availableStorage()) {
    this.#storage = storage;
  }

  read<T>(name: string, schema: v.GenericSchema<unknown, T>, fallback: T): T {
    const found = v.safeParse(schema, this.#inMemory.get(name) ?? this.#stored(name));
    return found.success ? found.output : fallback;
  }

  /** Another tab may write, too: what stands there is read again each time. */
  write(name: string, value: unknown): void {
    this.#inMemory.set(name, value);
    try {
      if (!this.#storage) return;
      this.#storage.setItem(SETTINGS_PREFIX + name, JSON.stringify(value));
      this.#inMemory.delete(name);
    } catch {
      // Full or forbidden: the choice holds until the page is closed.
    }
  }

  remove(name: string): void {
    this.#inMemory.delete(name);
    try {
      this.#storage?.removeItem(SETTINGS_PREFIX + name);
    } catch {
      // Forbidden: then it was not written either.
    }
  }

  /** The names of all that was written under a name with this beginning. */
  names(beginning: string): readonly string[] {
    try {
      const names = [...this.#inMemory.keys(), ...settingNames(this.#storage)];
      return names.filter((name) => name.startsWith(beginning));
    } catch {
      return [];
    }
  }

  #stored(name: string): unknown {
    try {
      const text = this.#storage?.getItem(SETTINGS_PREFIX + name);
      return text === undefined || text === null ? undefined : JSON.parse(text);
    } catch {
      return undefined;
    }
  }
}

/** The names of the settings that stand there, damaged ones too. @throws where the page may keep nothing */
export function settingNames(storage: Pick<Storage, 'key' | 'length'> | null): readonly string[] {
  const keys = Array.from({ length: storage?.length ?? 0 }, (_, i) => storage?.key(i) ?? '');
  return keys
    .filter((key) => key.startsWith(SETTINGS_PREFIX))
    .map((key) => key.slice(SETTINGS_PREFIX.length));
}

/** Merely asking for it throws where the page may keep nothing. */
export function availableStorage(): Storage | null {
  try {
    return localStorage;
  } catch {
    return null;
  }
}
