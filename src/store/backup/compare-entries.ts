import { bad, good, type Result } from '../../time/result';
import { isSound } from '../record-shapes';
import type { StoreProblem } from '../store-problem';
import { TABLE_NAMES, type OwnText, type TableName } from '../tables';
import { keyOfRecord, type EntryInFile, type RecordEntry } from './backup-entry';
import type { Keeping } from './stored-entries';
import { isBackedUp } from './stored-settings';
import { structuredJson } from './structured-json';
import { besideId, isOwnText } from './text-beside';

/**
 * What becomes of a record of a file: it is added; it is present already, word for word; it mends one that is damaged
 * here; another is here under its key; it is damaged itself; there are more than are kept.
 */
export const FATES = ['added', 'present', 'mended', 'differing', 'damaged', 'beyond'] as const;
export type Fate = (typeof FATES)[number];

export interface ComparedRecord {
  readonly table: TableName;
  /** Not held for longer than it is needed: of what is present or damaged only the number counts. */
  readonly record: unknown;
  readonly fate: Fate;
}

/** Records that are compared at once. Chosen. */
const BATCH = 50;

/** The entries of a file, compared with what is here as they come. */
export class ComparedEntries {
  readonly #keeping: Keeping;
  readonly #unstored: ReadonlyMap<string, unknown>;
  readonly #seen = new Set<string>();
  readonly #records: ComparedRecord[] = [];
  readonly #settings = new Map<string, string>();
  #batch: RecordEntry[] = [];
  #problem: StoreProblem | undefined;

  constructor(keeping: Keeping) {
    this.#keeping = keeping;
    this.#unstored = new Map(
      keeping.unstored().map(({ table, record }) => [placeOf(table, record), record]),
    );
  }

  get settings(): ReadonlyMap<string, string> {
    return this.#settings;
  }

  /** The next one; of two records under one key the first counts. */
  async take(entry: EntryInFile): Promise<void> {
    if ('setting' in entry) {
      if (isBackedUp(entry.setting)) this.#settings.set(entry.setting, entry.text);
      return;
    }
    const table = TABLE_NAMES.find((name) => name === entry.table);
    if (!table) return;
    const { record } = entry;
    if (!isSound(table, record)) {
      this.#records.push({ table, record: undefined, fate: 'damaged' });
      return;
    }
    const place = placeOf(table, record);
    if (this.#seen.has(place)) return;
    this.#seen.add(place);
    this.#batch.push({ table, record });
    if (this.#batch.length >= BATCH) await this.#compareBatch();
  }

  /** All records that came; bad where what is here cannot be read. */
  async all(): Promise<Result<readonly ComparedRecord[], StoreProblem>> {
    await this.#compareBatch();
    return this.#problem ? bad(this.#problem) : good(this.#records);
  }

  async #compareBatch(): Promise<void> {
    const batch = this.#batch;
    this.#batch = [];
    if (batch.length === 0 || this.#problem) return;
    const found = await this.#keeping.database.read(TABLE_NAMES, (transaction) =>
      Promise.all(
        batch.map(async ({ table, record }) => {
          const stored = transaction.objectStore(table);
          const get = (key: IDBValidKey) => stored.get(key as never) as Promise<unknown>;
          const key = keyOfRecord(table, record);
          return Promise.all([get(key), isOwnText(table) && get(besideId(record as OwnText))]);
        }),
      ),
    );
    if (!found.ok) {
      this.#problem = found.errors[0];
      return;
    }
    for (const [i, { table, record }] of batch.entries()) {
      const [stored, beside] = found.value[i]!;
      const here = this.#unstored.get(placeOf(table, record)) ?? stored;
      const fate = beside ? 'present' : fateBeside(table, record, here);
      this.#records.push({ table, record: fate === 'present' ? undefined : record, fate });
    }
  }
}

const placeOf = (table: TableName, record: unknown): string =>
  JSON.stringify([table, keyOfRecord(table, record)]);

function fateBeside(table: TableName, record: unknown, here: unknown): Fate {
  if (here === undefined) return 'added';
  if (!isSound(table, here)) return 'mended';
  return structuredJson(here) === structuredJson(record) ? 'present' : 'differing';
}
