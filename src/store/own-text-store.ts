import type { Result } from '../time/result';
import type { PracticeDatabase } from './database';
import { storeProblem, type StoreProblem } from './store-problem';
import type { OwnText } from './tables';

const OWN_TEXT_VERSION = 1;

/** The player's own phrases, or kits: texts that their parser has accepted, in order of their titles. */
export class OwnTextStore {
  readonly #database: PracticeDatabase;
  readonly #table: 'phrases' | 'kits';
  readonly #inMemory = new Map<string, OwnText>();

  constructor(database: PracticeDatabase, table: 'phrases' | 'kits') {
    this.#database = database;
    this.#table = table;
  }

  /**
   * Keeps a text; one of the same id is replaced. What cannot be stored stays in memory.
   *
   * @param savedAt ISO 8601
   */
  async put(
    text: Pick<OwnText, 'id' | 'title' | 'text'>,
    savedAt = new Date().toISOString(),
  ): Promise<Result<void, StoreProblem>> {
    const { id, title } = text;
    const record: OwnText = { id, title, text: text.text, savedAt, v: OWN_TEXT_VERSION };
    const stored = await this.#database.put(this.#table, record);
    if (stored.ok) this.#inMemory.delete(id);
    else this.#inMemory.set(id, record);
    return stored;
  }

  async list(): Promise<{ texts: readonly OwnText[]; problem: StoreProblem | undefined }> {
    const stored = await this.#database.read([this.#table], (transaction) =>
      transaction.objectStore(this.#table).getAll(),
    );
    const readable = stored.ok ? stored.value.filter(({ v }) => v <= OWN_TEXT_VERSION) : [];
    const problem = stored.ok
      ? readable.length < stored.value.length
        ? storeProblem('UNREADABLE')
        : undefined
      : stored.errors[0];
    const byId = new Map([...readable.map((text) => [text.id, text] as const), ...this.#inMemory]);
    return { texts: [...byId.values()].sort((a, b) => a.title.localeCompare(b.title)), problem };
  }

  async remove(id: string): Promise<Result<void, StoreProblem>> {
    this.#inMemory.delete(id);
    return this.#database.write([this.#table], (transaction) =>
      transaction.objectStore(this.#table).delete(id),
    );
  }
}

export const phraseStore = (database: PracticeDatabase): OwnTextStore =>
  new OwnTextStore(database, 'phrases');

export const kitStore = (database: PracticeDatabase): OwnTextStore =>
  new OwnTextStore(database, 'kits');
