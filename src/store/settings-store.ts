import * as v from 'valibot';

/** Part of every key: raise it when the meaning of a setting changes. */
const PREFIX = 'layered-phrases.1.';

/**
 * The last choices, read before the first paint and so not from the database. A choice that is
 * missing, damaged or unreadable is the fallback; one that cannot be written is forgotten with the page.
 */
export class SettingsStore {
  readonly #storage: Storage | undefined;
  readonly #inMemory = new Map<string, unknown>();

  constructor(storage: Storage | undefined = availableStorage()) {
    this.#storage = storage;
  }

  read<T>(name: string, schema: v.GenericSchema<unknown, T>, fallback: T): T {
    const found = v.safeParse(schema, this.#inMemory.get(name) ?? this.#stored(name));
    return found.success ? found.output : fallback;
  }

  write(name: string, value: unknown): void {
    this.#inMemory.set(name, value);
    try {
      this.#storage?.setItem(PREFIX + name, JSON.stringify(value));
    } catch {
      // Full or forbidden: the choice holds until the page is closed.
    }
  }

  #stored(name: string): unknown {
    try {
      const text = this.#storage?.getItem(PREFIX + name);
      return text === undefined || text === null ? undefined : JSON.parse(text);
    } catch {
      return undefined;
    }
  }
}

/** Merely asking for it throws where the page may keep nothing. */
function availableStorage(): Storage | undefined {
  try {
    return localStorage;
  } catch {
    return undefined;
  }
}
