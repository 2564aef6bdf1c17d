import { deleteDB } from 'idb';
import { fromStructuredJson } from '../../src/store/backup/structured-json';

/** A whole database as the code of its time wrote it; `structuredJson` wrote it down. */
export interface ReleasedStore {
  /** In the browser. */
  readonly version: number;
  readonly tables: readonly {
    readonly name: string;
    readonly keyPath: string | string[];
    readonly indexes: readonly { readonly name: string; readonly keyPath: string | string[] }[];
    readonly records: readonly unknown[];
  }[];
}

/** Records as they were, columns and all. */
export const recordsIn = (store: ReleasedStore, table: string): Record<string, unknown>[] =>
  (store.tables.find(({ name }) => name === table)?.records ?? []).map(
    (record) => fromStructuredJson(JSON.stringify(record)) as Record<string, unknown>,
  );

/** Puts it into the browser again, in place of what has that name. */
export async function installStore(name: string, store: ReleasedStore): Promise<void> {
  await deleteDB(name);
  await new Promise<void>((resolve, reject) => {
    const opening = indexedDB.open(name, store.version);
    opening.onupgradeneeded = () => {
      for (const { name: table, keyPath, indexes } of store.tables) {
        const created = opening.result.createObjectStore(table, { keyPath });
        for (const index of indexes) created.createIndex(index.name, index.keyPath);
        for (const record of recordsIn(store, table)) created.put(record);
      }
    };
    opening.onsuccess = () => {
      opening.result.close();
      resolve();
    };
    opening.onerror = () => reject(new Error('not opened'));
  });
}
