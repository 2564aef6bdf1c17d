import Dexie from 'dexie';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { DATABASE_VERSION, PracticeDatabase } from '../../src/store/database';
import { phraseStore } from '../../src/store/own-text-store';
import { TakeStore } from '../../src/store/take-store';
import type { StoreProblem } from '../../src/store/store-problem';
import { sampleSummary, sampleTake } from './sample-take';

const NAME = 'versions-under-test';
const closers: (() => void)[] = [];

beforeEach(() => Dexie.delete(NAME));
afterEach(() => {
  for (const close of closers.splice(0)) close();
});

function database(onNotice?: (problem: StoreProblem | undefined) => void): PracticeDatabase {
  const opened = new PracticeDatabase({ name: NAME, ...(onNotice ? { onNotice } : {}) });
  closers.push(() => opened.close());
  return opened;
}

/** The same store as later code would open it. */
async function laterVersion(): Promise<Dexie> {
  const later = new Dexie(NAME);
  later.version(DATABASE_VERSION + 1).stores({
    summaries: 'id, startedAt, phraseTitle',
    takes: 'id',
    phrases: 'id',
    kits: 'id',
  });
  closers.push(() => later.close());
  await later.open();
  return later;
}

const granted = () => Promise.resolve(true);

describe('the version gate', () => {
  it('neither reads nor writes a store of a newer version', async () => {
    const later = await laterVersion();
    const store = new TakeStore(database(), granted);
    const { summary, problem } = await store.add(sampleTake(), sampleSummary());
    expect(problem?.code).toBe('newer');
    expect(problem?.message).toContain('Reload');
    expect(store.isOnlyInMemory(summary.id)).toBe(true);
    expect(await later.table('summaries').count()).toBe(0);
    expect(later.backendDB().version).toBe((DATABASE_VERSION + 1) * 10);
  });

  it('gives the store up to a newer version opened in another tab, and writes no more', async () => {
    const notices: (string | undefined)[] = [];
    const store = new TakeStore(
      database((problem) => notices.push(problem?.code)),
      granted,
    );
    await store.add(sampleTake(), sampleSummary());
    const later = await laterVersion();
    const { problem } = await store.add(sampleTake(), sampleSummary());
    expect(problem?.code).toBe('replaced');
    expect(notices).toContain('replaced');
    expect(await later.table('summaries').count()).toBe(1);
  });

  it('says when another tab holds the store in an older form, and opens once it lets go', async () => {
    const older = await new Promise<IDBDatabase>((resolve, reject) => {
      const request = indexedDB.open(NAME, 5);
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(new Error('not opened'));
    });
    const notices: (string | undefined)[] = [];
    const waiting = new TakeStore(
      database((problem) => {
        notices.push(problem?.code);
        if (problem?.code === 'blocked') older.close();
      }),
      granted,
    );
    expect((await waiting.list()).problem).toBeUndefined();
    expect(notices).toEqual(['blocked', undefined]);
  });

  it('opens a store of version 1, keeps what is in it and has a place for what was played', async () => {
    const older = new Dexie(NAME);
    older.version(1).stores({
      summaries: 'id, startedAt',
      takes: 'id',
      phrases: 'id',
      kits: 'id',
      journal: '[takeId+part], takeId',
    });
    await older.table('phrases').put({ id: 'ebb', title: 'Ebb', text: '{}', savedAt: '', v: 1 });
    older.close();
    const opened = database();
    expect((await phraseStore(opened).list()).texts.map(({ title }) => title)).toEqual(['Ebb']);
    expect(await opened.run(({ plays }) => plays.count())).toEqual({ ok: true, value: 0 });
  });
});
