import { openDB, type IDBPDatabase, type IDBPTransaction } from 'idb';
import { LATE, within } from '../clock/deadline';
import { bad, good, type Result } from '../time/result';
import { isSound } from './record-shapes';
import { openingProblem, requestProblem, storeProblem, type StoreProblem } from './store-problem';
import {
  createTables,
  DATABASE_VERSION,
  isOurVersion,
  isWhole,
  versionInBrowser,
  type TableName,
  type Tables,
} from './tables';

const DATABASE_NAME = 'layered-phrases';

/** One transaction over some of the tables. */
export type Transaction<
  Name extends TableName,
  Mode extends 'readonly' | 'readwrite',
> = IDBPTransaction<Tables, Name[], Mode>;

type Connection = IDBPDatabase<Tables>;

/** A record that is not what its table holds: damaged, or from somewhere else. */
export interface DamagedRecord {
  readonly table: TableName;
  readonly key: IDBValidKey;
  readonly record: unknown;
}

export interface DatabaseOptions {
  readonly name?: string;
  /** Told when the store is taken over, held by another tab or silent, and again with undefined when it opens. */
  readonly onNotice?: (problem: StoreProblem | undefined) => void;
  /** Told of each damaged record that was come upon; it stays where it is. */
  readonly onDamaged?: (damaged: DamagedRecord) => void;
}

/** Chosen, not measured: nobody waits longer for what is kept before the page goes on without it. */
const OPENS_WITHIN_MS = 2000;
/** Chosen: an hour of a take in 9,000 parts is read in three seconds on a slow machine. */
const READS_WITHIN_MS = 12_000;
/**
 * Chosen: the longest take is a few megabytes, a second's work for a slow disk. What is told too soon goes on all the
 * same, and what is stored twice is there once.
 */
const WRITES_WITHIN_MS = 4000;

/**
 * Everything kept on this machine, as one versioned database. Nothing is read or written when the
 * stored version is newer than this code: the browser refuses to open it. Whatever the browser leaves unanswered fails
 * after a time.
 */
export class PracticeDatabase {
  readonly #name: string;
  readonly #notice: (problem: StoreProblem | undefined) => void;
  readonly #damaged: (damaged: DamagedRecord) => void;
  readonly #waiting = new Set<() => void>();
  #opening: Promise<Result<Connection, StoreProblem>> | undefined;
  #openingSinceMs = 0;
  #isBlocked = false;
  /** Somebody went on without it. */
  #isMissed = false;
  #refused: StoreProblem | undefined;

  constructor({
    name = DATABASE_NAME,
    onNotice = () => undefined,
    onDamaged = () => undefined,
  }: DatabaseOptions = {}) {
    this.#name = name;
    this.#notice = onNotice;
    this.#damaged = onDamaged;
  }

  read<Name extends TableName, T>(
    tables: readonly Name[],
    work: (transaction: Transaction<Name, 'readonly'>) => Promise<T>,
  ): Promise<Result<T, StoreProblem>> {
    return this.#run(tables, 'readonly', work);
  }

  /**
   * All of the work is kept, or nothing: good once it is on the disk.
   *
   * @param undoneAfterMs what takes longer is undone; unless given it is left to go on, but told after a time
   */
  write<Name extends TableName, T>(
    tables: readonly Name[],
    work: (transaction: Transaction<Name, 'readwrite'>) => Promise<T>,
    undoneAfterMs?: number,
  ): Promise<Result<T, StoreProblem>> {
    return this.#run(tables, 'readwrite', work, undoneAfterMs);
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

  /** Every sound record of a table, in order of the keys; the damaged ones are told of and left out. */
  async all<Name extends TableName>(
    table: Name,
  ): Promise<Result<readonly Tables[Name]['value'][], StoreProblem>> {
    const found = await this.read([table], async (transaction) => {
      const store = transaction.objectStore(table);
      return Promise.all([store.getAllKeys(), store.getAll()]);
    });
    if (!found.ok) return found;
    const [keys, records] = found.value;
    return good(records.filter((record, i) => this.#isSound(table, keys[i]!, record)));
  }

  /** One sound record; undefined where there is none. */
  async get<Name extends TableName>(
    table: Name,
    key: Tables[Name]['key'],
  ): Promise<Result<Tables[Name]['value'] | undefined, StoreProblem>> {
    const found = await this.read([table], (transaction) =>
      transaction.objectStore(table).get(key),
    );
    if (!found.ok || found.value === undefined) return found;
    return this.#isSound(table, key, found.value) ? found : bad(storeProblem('UNREADABLE'));
  }

  /** Tells of a record that stands in a table and that its reader can make nothing of. */
  setAside(damaged: DamagedRecord): void {
    this.#damaged(damaged);
  }

  /** Calls back each time the store opens that somebody had to go on without, until the returned function is called. */
  onOpen(opened: () => void): () => void {
    this.#waiting.add(opened);
    return () => this.#waiting.delete(opened);
  }

  close(): void {
    void this.#opening?.then((opened) => opened.ok && opened.value.close());
    this.#opening = undefined;
  }

  #isSound<Name extends TableName>(table: Name, key: IDBValidKey, record: unknown): boolean {
    if (isSound(table, record)) return true;
    this.#damaged({ table, key, record });
    return false;
  }

  /** Opens when needed, does the work, and opens once more when the browser closed the store in between. */
  async #run<Name extends TableName, Mode extends 'readonly' | 'readwrite', T>(
    tables: readonly Name[],
    mode: Mode,
    work: (transaction: Transaction<Name, Mode>) => Promise<T>,
    undoneAfterMs?: number,
  ): Promise<Result<T, StoreProblem>> {
    let problem: StoreProblem | undefined;
    let begun: Transaction<Name, Mode> | undefined;
    for (let attempt = 0; attempt < 2; attempt++) {
      const opened = await this.#open();
      if (!opened.ok) return opened;
      try {
        const answer = await within(
          undoneAfterMs ?? (mode === 'readonly' ? READS_WITHIN_MS : WRITES_WITHIN_MS),
          inTransaction(opened.value, tables, mode, (transaction) => {
            begun = transaction;
            return work(transaction);
          }),
        );
        if (answer !== LATE) return good(answer);
        if (undoneAfterMs !== undefined && begun) abort(begun);
        return bad(storeProblem('STUCK'));
      } catch (error) {
        if (this.#refused) return bad(this.#refused);
        problem = requestProblem(error);
        if (problem.code === 'FULL') break;
        this.close();
      }
    }
    return bad(problem!);
  }

  async #open(): Promise<Result<Connection, StoreProblem>> {
    if (this.#refused) return bad(this.#refused);
    if (!this.#opening) {
      this.#openingSinceMs = performance.now();
      this.#opening = this.#connect();
    }
    const opening = this.#opening;
    const waitedMs = performance.now() - this.#openingSinceMs;
    const opened = await within(Math.max(0, OPENS_WITHIN_MS - waitedMs), opening);
    if (opened === LATE) {
      this.#isMissed = true;
      const problem = storeProblem(this.#isBlocked ? 'BLOCKED' : 'SILENT');
      this.#notice(problem);
      return bad(problem);
    }
    if (!opened.ok && this.#opening === opening) this.#opening = undefined;
    return opened;
  }

  async #connect(): Promise<Result<Connection, StoreProblem>> {
    try {
      const connection = await this.#repaired(await this.#openOurs());
      this.#isBlocked = false;
      this.#notice(undefined);
      // Whoever asked for it first goes on first.
      if (this.#isMissed) setTimeout(() => this.#waiting.forEach((opened) => opened()));
      this.#isMissed = false;
      return good(connection);
    } catch (error) {
      this.#isMissed = true;
      return bad(openingProblem(error));
    }
  }

  /** Opens it at this code's version, or as it stands where it was repaired since. */
  async #openOurs(): Promise<Connection> {
    try {
      return await this.#openAt(versionInBrowser(DATABASE_VERSION));
    } catch (error) {
      if (!(error instanceof Error) || error.name !== 'VersionError') throw error;
      const asItStands = await this.#openAt(undefined);
      if (isOurVersion(asItStands.version)) return asItStands;
      asItStands.close();
      throw error;
    }
  }

  /** With every table and index, whoever took them away. */
  async #repaired(connection: Connection): Promise<Connection> {
    const next = connection.version + 1;
    if (isWhole(connection) || !isOurVersion(next)) return connection;
    connection.close();
    return this.#openAt(next);
  }

  #openAt(version: number | undefined): Promise<Connection> {
    return openDB<Tables>(this.#name, version, {
      upgrade: (database, _from, _to, transaction) =>
        createTables(
          database as unknown as IDBPDatabase,
          transaction as unknown as IDBPTransaction<unknown, string[], 'versionchange'>,
        ),
      blocked: () => {
        this.#isBlocked = true;
        this.#notice(storeProblem('BLOCKED'));
      },
      blocking: (_present, wanted) => {
        // Another tab repairs it: this one goes on with what comes of that.
        if (wanted !== null && isOurVersion(wanted)) return this.close();
        this.#refused = storeProblem('REPLACED');
        this.close();
        this.#notice(this.#refused);
      },
    });
  }
}

async function inTransaction<Name extends TableName, Mode extends 'readonly' | 'readwrite', T>(
  connection: Connection,
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
