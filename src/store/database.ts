import { openDB, type IDBPDatabase, type IDBPTransaction } from 'idb';
import { bad, good, type Result } from '../time/result';
import { openingProblem, requestProblem, storeProblem, type StoreProblem } from './store-problem';
import {
  createTables,
  DATABASE_VERSION,
  versionInBrowser,
  type TableName,
  type Tables,
} from './tables';

export const DATABASE_NAME = 'layered-phrases';

/** One transaction over some of the tables. */
export type Transaction<
  Name extends TableName,
  Mode extends 'readonly' | 'readwrite',
> = IDBPTransaction<Tables, Name[], Mode>;

export interface DatabaseOptions {
  readonly name?: string;
  /** Told when the store is taken over or held by another tab, and again with undefined when it opens. */
  readonly onNotice?: (problem: StoreProblem | undefined) => void;
}

/**
 * Everything kept on this machine, as one versioned database. Nothing is read or written when the
 * stored version is newer than this code: the browser refuses to open it.
 */
export class PracticeDatabase {
  readonly #name: string;
  readonly #notice: (problem: StoreProblem | undefined) => void;
  #opening: Promise<Result<IDBPDatabase<Tables>, StoreProblem>> | undefined;
  #refused: StoreProblem | undefined;

  constructor({ name = DATABASE_NAME, onNotice = () => undefined }: DatabaseOptions = {}) {
    this.#name = name;
    this.#notice = onNotice;
  }

  read<Name extends TableName, T>(
    tables: readonly Name[],
    work: (transaction: Transaction<Name, 'readonly'>) => Promise<T>,
  ): Promise<Result<T, StoreProblem>> {
    return this.#run(tables, 'readonly', work);
  }

  /** All of the work is kept, or nothing: good once it is on the disk. */
  write<Name extends TableName, T>(
    tables: readonly Name[],
    work: (transaction: Transaction<Name, 'readwrite'>) => Promise<T>,
  ): Promise<Result<T, StoreProblem>> {
    return this.#run(tables, 'readwrite', work);
  }

  /**
   * Keeps one record. The browser hears in the same task that no more will follow, so that a page that is killed or
   * busy from then on does not hold it up.
   */
  put<Name extends TableName>(
    table: Name,
    record: Tables[Name]['value'],
  ): Promise<Result<void, StoreProblem>> {
    return this.write([table], async (transaction) => {
      const stored = transaction.objectStore(table).put(record);
      transaction.commit();
      await stored;
    });
  }

  close(): void {
    void this.#opening?.then((opened) => opened.ok && opened.value.close());
    this.#opening = undefined;
  }

  /** Opens when needed, does the work, and opens once more when the browser closed the store in between. */
  async #run<Name extends TableName, Mode extends 'readonly' | 'readwrite', T>(
    tables: readonly Name[],
    mode: Mode,
    work: (transaction: Transaction<Name, Mode>) => Promise<T>,
  ): Promise<Result<T, StoreProblem>> {
    let problem: StoreProblem | undefined;
    for (let attempt = 0; attempt < 2; attempt++) {
      const opened = await this.#open();
      if (!opened.ok) return opened;
      try {
        return good(await inTransaction(opened.value, tables, mode, work));
      } catch (error) {
        if (this.#refused) return bad(this.#refused);
        problem = requestProblem(error);
        if (problem.code === 'FULL') break;
        this.close();
      }
    }
    return bad(problem!);
  }

  async #open(): Promise<Result<IDBPDatabase<Tables>, StoreProblem>> {
    if (this.#refused) return bad(this.#refused);
    const opening = (this.#opening ??= this.#connect());
    const opened = await opening;
    if (!opened.ok && this.#opening === opening) this.#opening = undefined;
    return opened;
  }

  async #connect(): Promise<Result<IDBPDatabase<Tables>, StoreProblem>> {
    try {
      const connection = await openDB<Tables>(this.#name, versionInBrowser(DATABASE_VERSION), {
        upgrade: (database) => createTables(database as unknown as IDBPDatabase),
        blocked: () => this.#notice(storeProblem('BLOCKED')),
        blocking: () => {
          this.#refused = storeProblem('REPLACED');
          this.close();
          this.#notice(this.#refused);
        },
      });
      this.#notice(undefined);
      return good(connection);
    } catch (error) {
      return bad(openingProblem(error));
    }
  }
}

async function inTransaction<Name extends TableName, Mode extends 'readonly' | 'readwrite', T>(
  connection: IDBPDatabase<Tables>,
  tables: readonly Name[],
  mode: Mode,
  work: (transaction: Transaction<Name, Mode>) => Promise<T>,
): Promise<T> {
  const transaction = connection.transaction([...tables], mode, { durability: 'strict' });
  try {
    // Also what the work throws at once is then a rejection, and `done` has somebody who looks.
    const working = Promise.resolve(transaction).then(work);
    const [value] = await Promise.all([working, transaction.done]);
    return value;
  } catch (error) {
    // Its own error says why all of its requests failed.
    const cause = transaction.error ?? error;
    if (transaction.error === null) abort(transaction);
    throw cause;
  }
}

/** What fails by itself, not in a request, leaves the transaction to be committed. */
function abort(transaction: { abort(): void }): void {
  try {
    transaction.abort();
  } catch {
    // It is over already.
  }
}
