import { bad, good, type Result } from '../time/result';
import type { PracticeDatabase, Transaction } from './database';
import { StoreAgain } from './store-again';
import { storeProblem, type StoreProblem } from './store-problem';
import type { OwnText } from './tables';

const OWN_TEXT_VERSION = 1;

/** The record of a text. @param savedAt ISO 8601 */
export const ownTextRecord = (
  { id, title, text }: Pick<OwnText, 'id' | 'title' | 'text'>,
  savedAt: string,
): OwnText => ({ id, title, text, savedAt, v: OWN_TEXT_VERSION });

type TextTable = ReturnType<Transaction<'phrases' | 'kits', 'readwrite'>['objectStore']>;

/** The player's own phrases, or kits: texts that their parser has accepted, in order of their titles. */
export class OwnTextStore {
  readonly #database: PracticeDatabase;
  readonly #table: 'phrases' | 'kits';
  readonly #inMemory = new Map<string, OwnText>();
  /** The texts as this page last knew them to stand there, by id. */
  readonly #stored = new Map<string, string>();
  readonly #again: StoreAgain;

  constructor(database: PracticeDatabase, table: 'phrases' | 'kits') {
    this.#database = database;
    this.#table = table;
    this.#again = new StoreAgain(database, () => this.#storeUnstored());
  }

  /**
   * Keeps a text; one of the same id is replaced, unless another tab has changed it. What cannot be stored stays in
   * memory.
   *
   * @param savedAt ISO 8601
   */
  async put(
    text: Pick<OwnText, 'id' | 'title' | 'text'>,
    savedAt = new Date().toISOString(),
  ): Promise<Result<void, StoreProblem>> {
    const { id } = text;
    const record = ownTextRecord(text, savedAt);
    const stored = await this.#put(record);
    if (stored.ok || stored.errors[0]!.code === 'CHANGED') this.#inMemory.delete(id);
    else {
      this.#inMemory.set(id, record);
      this.#again.later();
    }
    return stored;
  }

  /** The text as this page last knew it to stand there; undefined where there was none. */
  storedText(id: string): string | undefined {
    return this.#stored.get(id);
  }

  /** Whether nothing is left in memory alone. */
  async #storeUnstored(): Promise<boolean> {
    for (const [id, record] of [...this.#inMemory]) {
      const stored = await this.#put(record);
      // What another tab has changed stays in memory: whoever has it open keeps it elsewhere.
      if (!stored.ok && stored.errors[0]!.code === 'CHANGED') continue;
      if (!stored.ok) return false;
      // Another text of the same has come in the meantime: it is next.
      if (this.#inMemory.get(id) === record) this.#inMemory.delete(id);
    }
    return true;
  }

  async #put(record: OwnText): Promise<Result<void, StoreProblem>> {
    const stored = await this.#unlessChanged(record.id, record.text, (table) => table.put(record));
    if (stored.ok) this.#stored.set(record.id, record.text);
    return stored;
  }

  /** Does it where the text of that id is the one that this page knows, one it has tried to store, or gone. */
  async #unlessChanged(
    id: string,
    ours: string | undefined,
    work: (table: TextTable) => Promise<unknown>,
  ): Promise<Result<void, StoreProblem>> {
    const done = await this.#database.write([this.#table], async (transaction) => {
      const table = transaction.objectStore(this.#table);
      const there = await table.get(id);
      const known = [this.#stored.get(id), this.#inMemory.get(id)?.text, ours];
      const isOurs = there === undefined || known.includes(there.text);
      if (isOurs) await work(table);
      return isOurs;
    });
    if (!done.ok) return done;
    return done.value ? good(undefined) : bad(storeProblem('CHANGED'));
  }

  /** The texts that are only in memory. */
  get unstored(): readonly OwnText[] {
    return [...this.#inMemory.values()];
  }

  async list(): Promise<{ texts: readonly OwnText[]; problem: StoreProblem | undefined }> {
    const stored = await this.#database.all(this.#table);
    const all = stored.ok ? stored.value : [];
    const readable = all.filter(({ v }) => v <= OWN_TEXT_VERSION);
    for (const text of all) if (text.v > OWN_TEXT_VERSION) this.setAside(text);
    for (const { id, text } of readable) this.#stored.set(id, text);
    const problem = stored.ok ? undefined : stored.errors[0];
    const byId = new Map([...readable.map((text) => [text.id, text] as const), ...this.#inMemory]);
    return { texts: [...byId.values()].sort((a, b) => a.title.localeCompare(b.title)), problem };
  }

  /** The text of this record is none that its parser accepts. */
  setAside(record: OwnText): void {
    this.#database.setAside({ table: this.#table, key: record.id, record });
  }

  async remove(id: string): Promise<Result<void, StoreProblem>> {
    const tried = this.#inMemory.get(id)?.text;
    this.#inMemory.delete(id);
    return this.#unlessChanged(id, tried, (table) => table.delete(id));
  }
}

export const phraseStore = (database: PracticeDatabase): OwnTextStore =>
  new OwnTextStore(database, 'phrases');

export const kitStore = (database: PracticeDatabase): OwnTextStore =>
  new OwnTextStore(database, 'kits');
