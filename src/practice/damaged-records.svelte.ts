import type { DamagedRecord, PracticeDatabase } from '../store/database';
import type { StoreProblem } from '../store/store-problem';

/** What was come upon in the store that cannot be read. It hides nothing else, and stays until the player removes it. */
export class DamagedRecords {
  #all: readonly DamagedRecord[] = $state.raw([]);
  #database: Pick<PracticeDatabase, 'write'> | undefined;

  /** Where they are removed. */
  useDatabase(database: Pick<PracticeDatabase, 'write'>): void {
    this.#database = database;
  }

  get all(): readonly DamagedRecord[] {
    return this.#all;
  }

  add(damaged: DamagedRecord): void {
    if (!this.#all.some((one) => isSame(one, damaged))) this.#all = [...this.#all, damaged];
  }

  /** A sound record stands there now. */
  forget(place: Omit<DamagedRecord, 'record'>): void {
    this.#all = this.#all.filter((one) => !isSame(one, place));
  }

  /** Why it could not be removed, if it could not. */
  async remove(damaged: DamagedRecord): Promise<StoreProblem | undefined> {
    const { table, key } = damaged;
    // The parts of a take that was cut short go together.
    const keys =
      table === 'journal' && Array.isArray(key) ? IDBKeyRange.bound([key[0]], [key[0], []]) : key;
    const removed = await this.#database!.write([table], (transaction) =>
      transaction.objectStore(table).delete(keys as never),
    );
    if (!removed.ok) return removed.errors[0];
    this.forget(damaged);
    return undefined;
  }
}

const isSame = (a: DamagedRecord, b: Omit<DamagedRecord, 'record'>): boolean =>
  a.table === b.table && indexedDB.cmp(a.key, b.key) === 0;

/** A record as the text of a file: typed arrays as lists, what JSON cannot say as text. */
export const recordText = ({ table, key, record }: DamagedRecord): string =>
  `${JSON.stringify({ table, key, record }, readable, 1)}\n`;

function readable(_key: string, value: unknown): unknown {
  if (ArrayBuffer.isView(value)) return Array.from(value as unknown as ArrayLike<number>);
  if (typeof value === 'bigint') return `${value}`;
  if (typeof value === 'number' && !Number.isFinite(value)) return `${value}`;
  return value;
}
