import { good, type Result } from '../../time/result';
import type { PracticeDatabase } from '../database';
import type { StoreProblem } from '../store-problem';
import { TABLE_NAMES, type TableName } from '../tables';
import { keyOfRecord, type BackupEntry, type RecordEntry } from './backup-entry';
import { storedSettings, type SettingsStorage } from './stored-settings';

/** Everything that is kept. */
export interface Keeping {
  readonly database: Pick<PracticeDatabase, 'read' | 'write'>;
  readonly storage: SettingsStorage | null;
  /** What could not be stored and goes with the page; it counts before what is stored under its key. */
  readonly unstored: () => readonly RecordEntry[];
}

/** Records that are read at once. Chosen: a few megabytes of long takes. */
const BATCH = 20;

/** All of it, a few at a time: settings, what is only in memory, then table by table, damaged records as they are. */
export async function* storedEntries({
  database,
  storage,
  unstored,
}: Keeping): AsyncGenerator<Result<readonly BackupEntry[], StoreProblem>> {
  yield good([...storedSettings(storage)].map(([setting, text]) => ({ setting, text })));
  const inMemory = unstored();
  yield good(inMemory);
  const isInMemory = (table: TableName, key: IDBValidKey) =>
    inMemory.some(
      (one) => one.table === table && indexedDB.cmp(keyOfRecord(table, one.record), key) === 0,
    );
  const keys = await database.read(TABLE_NAMES, (transaction) =>
    Promise.all(
      TABLE_NAMES.map(async (table) => {
        const stored: IDBValidKey[] = await transaction.objectStore(table).getAllKeys();
        return stored.filter((key) => !isInMemory(table, key)).map((key) => ({ table, key }));
      }),
    ),
  );
  if (!keys.ok) {
    yield keys;
    return;
  }
  for (const ofTable of keys.value)
    for (let from = 0; from < ofTable.length; from += BATCH)
      yield await batchOf(database, ofTable.slice(from, from + BATCH));
}

/** What is still there of the records of one table. */
async function batchOf(
  database: Keeping['database'],
  places: readonly { readonly table: TableName; readonly key: IDBValidKey }[],
): Promise<Result<readonly BackupEntry[], StoreProblem>> {
  const { table } = places[0]!;
  const read = await database.read([table], (transaction) => {
    const records = transaction.objectStore(table);
    return Promise.all(places.map(({ key }) => records.get(key as never) as Promise<unknown>));
  });
  if (!read.ok) return read;
  return good(read.value.flatMap((record) => (record === undefined ? [] : [{ table, record }])));
}
