import { deleteDB } from 'idb';
import { afterEach, beforeEach, vi } from 'vitest';
import { PracticeDatabase } from '../../src/store/database';

/** Each test of the file begins without a database of that name; the function opens one, and again at each call. */
export function freshDatabase(name: string): () => PracticeDatabase {
  const open: PracticeDatabase[] = [];
  beforeEach(() => deleteDB(name));
  afterEach(() => {
    vi.restoreAllMocks();
    for (const database of open.splice(0)) database.close();
  });
  return () => {
    const database = new PracticeDatabase({ name });
    open.push(database);
    return database;
  };
}
