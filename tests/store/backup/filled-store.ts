import { deleteDB, openDB } from 'idb';
import { afterEach } from 'vitest';
import type { RecordEntry } from '../../../src/store/backup/backup-entry';
import { planRestore } from '../../../src/store/backup/restore-plan';
import { restore, type RestoreChoice } from '../../../src/store/backup/restore';
import { storedEntries, type Keeping } from '../../../src/store/backup/stored-entries';
import { writeBackup } from '../../../src/store/backup/write-backup';
import { PracticeDatabase } from '../../../src/store/database';
import { TABLE_NAMES } from '../../../src/store/tables';
import { StubStorage } from './stub-storage';

export const MOST_CAPTURES = 10;
export const CAREFUL: RestoreChoice = { differing: 'beside', settings: 'these' };

/** A store of its own, and what stands in it. */
export interface FilledStore extends Keeping {
  readonly database: PracticeDatabase;
  readonly storage: StubStorage;
  /** Every record as it stands there. */
  readonly records: () => Promise<RecordEntry[]>;
}

let made = 0;
const closers: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const close of closers.splice(0)) await close();
});

/** A store with these records, whatever they are. */
export async function filledStore(
  records: readonly RecordEntry[] = [],
  settings: Readonly<Record<string, string>> = {},
): Promise<FilledStore> {
  const name = `backup-under-test-${made++}`;
  await deleteDB(name);
  const database = new PracticeDatabase({ name });
  await database.all('takes');
  const raw = await openDB(name);
  for (const { table, record } of records) await raw.put(table, record);
  raw.close();
  closers.push(async () => {
    database.close();
    await deleteDB(name);
  });
  return {
    database,
    storage: new StubStorage(settings),
    unstored: () => [],
    records: async () => {
      const connection = await openDB(name);
      const tables = await Promise.all(
        TABLE_NAMES.map(async (table) =>
          (await connection.getAll(table)).map((record): RecordEntry => ({ table, record })),
        ),
      );
      connection.close();
      return tables.flat();
    },
  };
}

const AT = '2026-05-04T18:20:00.000Z';

export async function backupOf(keeping: Keeping): Promise<Blob> {
  const written = await writeBackup(storedEntries(keeping), AT);
  if (!written.ok) throw new Error(written.errors[0]!.message);
  return written.value.file;
}

export async function planned(file: Blob, keeping: Keeping) {
  const plan = await planRestore(file, keeping, MOST_CAPTURES);
  if (!plan.ok) throw new Error(plan.errors[0]!.message);
  return plan.value;
}

/** Puts a backup back, and says what became of it. */
export const putBack = async (file: Blob, keeping: Keeping, choice = CAREFUL) =>
  restore(await planned(file, keeping), choice, keeping);
