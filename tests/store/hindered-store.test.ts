import { deleteDB, openDB } from 'idb';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { PracticeDatabase } from '../../src/store/database';
import { phraseStore } from '../../src/store/own-text-store';
import { TakeStore } from '../../src/store/take-store';
import { sampleSummary, sampleTake } from './sample-take';

const NAME = 'hindered-under-test';
const closers: (() => void)[] = [];
beforeEach(() => deleteDB(NAME));
afterEach(() => {
  vi.restoreAllMocks();
  for (const close of closers.splice(0)) close();
});

function database() {
  const notices: (string | undefined)[] = [];
  const opened = new PracticeDatabase({
    name: NAME,
    onNotice: (problem) => notices.push(problem?.code),
  });
  closers.push(() => opened.close());
  return { opened, notices };
}
const granted = () => Promise.resolve(true);
const TEXT = { id: 'own-1', title: 'Ebb', text: '{}' };

describe('a store that opens late', () => {
  it('keeps what came meanwhile in memory, and stores it once it opens', async () => {
    const before = database().opened;
    await before.all('takes');
    before.close();
    const realOpen = indexedDB.open.bind(indexedDB);
    let letOpen = () => undefined as void;
    const released = new Promise<void>((resolve) => (letOpen = resolve));
    vi.spyOn(IDBFactory.prototype, 'open').mockImplementation((...args) => {
      const request = realOpen(...args);
      const listen = request.addEventListener.bind(request);
      request.addEventListener = (type: string, hear: unknown) =>
        listen(type, (event) => void released.then(() => (hear as (event: Event) => void)(event)));
      return request;
    });
    const { opened, notices } = database();
    const store = new TakeStore(opened, granted);
    const stored: string[] = [];
    store.onStoredLater((id) => stored.push(id));
    const { summary, problem } = await store.add(sampleTake(), sampleSummary());
    expect(problem?.code).toBe('SILENT');
    expect(notices).toContain('SILENT');
    expect((await store.list()).summaries).toEqual([summary]);
    expect(store.isOnlyInMemory(summary.id)).toBe(true);

    letOpen();
    await expect.poll(() => stored).toEqual([summary.id]);
    expect(notices.at(-1)).toBeUndefined();
    expect(store.isOnlyInMemory(summary.id)).toBe(false);
    expect((await store.list()).summaries).toEqual([summary]);
  });
});

describe('a store with something missing', () => {
  it.each([
    ['a table', (db: IDBDatabase) => db.deleteObjectStore('plays')],
    [
      'all tables but one',
      (db: IDBDatabase) => {
        for (const name of [...db.objectStoreNames])
          if (name !== 'phrases') db.deleteObjectStore(name);
      },
    ],
    [
      'an index',
      (_db: IDBDatabase, transaction: IDBTransaction) =>
        transaction.objectStore('summaries').deleteIndex('startedAt'),
    ],
  ])('%s: is repaired, keeps what is there, and opens ever after', async (_, spoil) => {
    const before = database().opened;
    await phraseStore(before).put(TEXT);
    before.close();
    const raw = await openDB(NAME);
    const { version } = raw;
    raw.close();
    await deleteAndCopy(version, spoil);

    for (let visit = 0; visit < 2; visit++) {
      const { opened } = database();
      const store = new TakeStore(opened, granted);
      expect((await store.add(sampleTake(), sampleSummary())).problem).toBeUndefined();
      expect((await opened.all('plays')).ok).toBe(true);
      expect((await phraseStore(opened).list()).texts).toMatchObject([TEXT]);
      opened.close();
    }
  });
});

/** The same database at the same version, with something taken away on the way. */
async function deleteAndCopy(
  version: number,
  spoil: (db: IDBDatabase, transaction: IDBTransaction) => void,
): Promise<void> {
  await deleteDB(NAME);
  await new Promise<void>((resolve, reject) => {
    const request = indexedDB.open(NAME, version);
    request.onupgradeneeded = () => {
      const db = request.result;
      db.createObjectStore('summaries', { keyPath: 'id' }).createIndex('startedAt', 'startedAt');
      for (const name of ['takes', 'kits']) db.createObjectStore(name, { keyPath: 'id' });
      db.createObjectStore('phrases', { keyPath: 'id' }).put({
        ...TEXT,
        v: 1,
        savedAt: '2026-03-01T10:00:00.000Z',
      });
      db.createObjectStore('journal', { keyPath: ['takeId', 'part'] }).createIndex(
        'takeId',
        'takeId',
      );
      db.createObjectStore('plays', { keyPath: 'id' }).createIndex('at', 'at');
      spoil(db, request.transaction!);
    };
    request.onsuccess = () => {
      request.result.close();
      resolve();
    };
    request.onerror = () => reject(new Error('not opened'));
  });
}
