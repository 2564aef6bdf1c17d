import type { Result } from '../time/result';
import type { PracticeDatabase } from './database';
import { StoreAgain } from './store-again';
import type { StoreProblem } from './store-problem';
import type { OwnText } from './tables';

const OWN_TEXT_VERSION = 1;

/** The player's own phrases, or kits: texts that their parser has accepted, in order of their titles. */
export class OwnTextStore {
  readonly #database: PracticeDatabase;
  readonly #table: 'phrases' | 'kits';
  readonly #inMemory = new Map<string, OwnText>();
  readonly #again: StoreAgain;

  constructor(database: PracticeDatabase, table: 'phrases' | 'kits') {
    this.#database = database;
    this.#table = table;
    this.#again = new StoreAgain(database, () => this.#storeUnstored());
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
    else {
      this.#inMemory.set(id, record);
      this.#again.later();
    }
    return stored;
  }

  /** Whether nothing is left in memory alone. */
  async #storeUnstored(): Promise<boolean> {
    for (const [id, record] of [...this.#inMemory]) {
      if (!(await this.#database.put(this.#table, record)).ok) return false;
      // Another text of the same has come in the meantime: it is next.
      if (this.#inMemory.get(id) === record) this.#inMemory.delete(id);
    }
    return this.#inMemory.size === 0;
  }

  async list(): Promise<{ texts: readonly OwnText[]; problem: StoreProblem | undefined }> {
    const stored = await this.#database.all(this.#table);
    const all = stored.ok ? stored.value : [];
    const readable = all.filter(({ v }) => v <= OWN_TEXT_VERSION);
    for (const text of all) if (text.v > OWN_TEXT_VERSION) this.setAside(text);
    const problem = stored.ok ? undefined : stored.errors[0];
    const byId = new Map([...readable.map((text) => [text.id, text] as const), ...this.#inMemory]);
    return { texts: [...byId.values()].sort((a, b) => a.title.localeCompare(b.title)), problem };
  }

  /** The text of this record is none that its parser accepts. */
  setAside(record: OwnText): void {
    this.#database.setAside({ table: this.#table, key: record.id, record });
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
