import type { Take } from '../take/take';
import { bad, good, type Result } from '../time/result';
import type { PracticeDatabase } from './database';
import { packTake, unpackTake } from './packed-take';
import { StoreAgain } from './store-again';
import { storeProblem, type StoreProblem } from './store-problem';
import type { StoredTakeSummary, TakeSummary } from '../take/take-summary';
import { randomId } from './random-id';

/** A take that was added, and why it is only in memory if it is. */
export interface AddedTake {
  readonly summary: StoredTakeSummary;
  readonly problem: StoreProblem | undefined;
}

interface UnstoredTake {
  readonly summary: StoredTakeSummary;
  readonly take: Take;
  readonly problem: StoreProblem;
}

/** What the log lists, newest first, and why it may not be all there is or not all of it is stored. */
export interface TakeList {
  readonly summaries: readonly StoredTakeSummary[];
  readonly problem: StoreProblem | undefined;
}

/**
 * The takes of the log. What cannot be stored stays in memory as long as the page is open, and is tried again, so that
 * nothing played is lost while there is any room for it.
 */
export class TakeStore {
  readonly #database: PracticeDatabase;
  readonly #inMemory = new Map<string, UnstoredTake>();
  readonly #persist: () => Promise<boolean>;
  readonly #again: StoreAgain;
  #storedLater: (id: string) => void = () => undefined;
  #persisted: Promise<boolean> | undefined;

  constructor(database: PracticeDatabase, persist: () => Promise<boolean> = askToPersist) {
    this.#database = database;
    this.#persist = persist;
    this.#again = new StoreAgain(database, () => this.#storeUnstored());
  }

  /** Calls back when a take that was only in memory is stored after all. */
  onStoredLater(stored: (id: string) => void): void {
    this.#storedLater = stored;
  }

  /** Adds a take; one of the same id is replaced. */
  async add(take: Take, figures: TakeSummary, id: string = randomId()): Promise<AddedTake> {
    const summary: StoredTakeSummary = { ...figures, id };
    const stored = await this.#put(summary, take);
    if (stored.ok) this.#persisted ??= this.#persist();
    return { summary, problem: stored.ok ? undefined : stored.errors[0] };
  }

  /** Puts back what `remove` took away. */
  restore(summary: StoredTakeSummary, take: Take): Promise<Result<void, StoreProblem>> {
    return this.#put(summary, take);
  }

  async list(): Promise<TakeList> {
    const stored = await this.#database.all('summaries');
    const inMemory = [...this.#inMemory.values()];
    const unstored = inMemory.map(({ summary }) => summary);
    const all = stored.ok ? [...unstored, ...stored.value] : unstored;
    return {
      summaries: all.sort((a, b) => (a.startedAt < b.startedAt ? 1 : -1)),
      problem: stored.ok ? inMemory.at(-1)?.problem : stored.errors[0],
    };
  }

  /** Whether the take is only in memory and goes with the page. */
  isOnlyInMemory(id: string): boolean {
    return this.#inMemory.has(id);
  }

  /** The takes that are only in memory. */
  get unstored(): readonly { readonly summary: StoredTakeSummary; readonly take: Take }[] {
    return [...this.#inMemory.values()];
  }

  /** A take in full; undefined when there is none of this id. */
  async get(id: string): Promise<Result<Take | undefined, StoreProblem>> {
    const unstored = this.#inMemory.get(id);
    if (unstored) return good(unstored.take);
    const found = await this.#database.get('takes', id);
    if (!found.ok) return found;
    if (!found.value) return good(undefined);
    const take = unpackTake(found.value);
    if (take) return good(take);
    this.#database.setAside({ table: 'takes', key: id, record: found.value });
    return bad(storeProblem('UNREADABLE'));
  }

  async remove(id: string): Promise<Result<void, StoreProblem>> {
    if (this.#inMemory.delete(id)) return good(undefined);
    return this.#database.write(['summaries', 'takes'], async (transaction) => {
      await transaction.objectStore('summaries').delete(id);
      await transaction.objectStore('takes').delete(id);
    });
  }

  /** What the browser answered when it was asked not to clear this page's data; undefined before it was. */
  get persisted(): Promise<boolean> | undefined {
    return this.#persisted;
  }

  async #put(summary: StoredTakeSummary, take: Take): Promise<Result<void, StoreProblem>> {
    const stored = await this.#write(summary, take);
    if (!stored.ok) {
      this.#inMemory.set(summary.id, { summary, take, problem: stored.errors[0]! });
      this.#again.later();
    }
    return stored;
  }

  #write(summary: StoredTakeSummary, take: Take): Promise<Result<void, StoreProblem>> {
    const packed = packTake(summary.id, take);
    return this.#database.write(['summaries', 'takes'], async (transaction) => {
      await transaction.objectStore('takes').put(packed);
      await transaction.objectStore('summaries').put({ ...summary });
    });
  }

  /** Whether nothing is left in memory alone. */
  async #storeUnstored(): Promise<boolean> {
    for (const [id, { summary, take }] of [...this.#inMemory]) {
      if (!(await this.#write(summary, take)).ok) return false;
      // Removed in the meantime: then it has to go from the store, too.
      if (this.#inMemory.delete(id)) this.#storedLater(id);
      else await this.remove(id);
    }
    return true;
  }
}

/**
 * Asks the browser not to clear this page's data when space runs short, or, in some browsers, after
 * a week without a visit. False also where it cannot be asked.
 */
async function askToPersist(): Promise<boolean> {
  const storage = navigator.storage as Partial<StorageManager> | undefined;
  try {
    if (await storage?.persisted?.()) return true;
    return (await storage?.persist?.()) ?? false;
  } catch {
    return false;
  }
}
