import Dexie from 'dexie';
import { deleteDB } from 'idb';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { CaptureStore } from '../../src/store/capture-store';
import { PracticeDatabase } from '../../src/store/database';
import { kitStore, phraseStore } from '../../src/store/own-text-store';
import { packCapture } from '../../src/store/packed-capture';
import { packTake } from '../../src/store/packed-take';
import { DATABASE_VERSION } from '../../src/store/tables';
import { unfinishedTakes } from '../../src/store/unfinished-takes';
import { TakeStore } from '../../src/store/take-store';
import type { StoreProblem } from '../../src/store/store-problem';
import { sampleSummary, sampleTake } from './sample-take';

const NAME = 'versions-under-test';
const closers: (() => void)[] = [];

beforeEach(() => deleteDB(NAME));
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
    expect(problem?.code).toBe('NEWER');
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
    expect(problem?.code).toBe('REPLACED');
    expect(notices).toContain('REPLACED');
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
        if (problem?.code === 'BLOCKED') older.close();
      }),
      granted,
    );
    expect((await waiting.list()).problem).toBeUndefined();
    expect(notices).toEqual(['BLOCKED', undefined]);
  });
});

/** The tables as Dexie, which made the first databases, was told them; its own version times ten is the browser's. */
const VERSION_1 = {
  summaries: 'id, startedAt',
  takes: 'id',
  phrases: 'id',
  kits: 'id',
  journal: '[takeId+part], takeId',
};

async function madeByDexie(version: 1 | 2): Promise<Dexie> {
  const dexie = new Dexie(NAME);
  dexie.version(version).stores(version === 1 ? VERSION_1 : { ...VERSION_1, plays: 'id, at' });
  await dexie.open();
  return dexie;
}

const textOf = (id: string, title: string) => ({ id, title, text: '{}', savedAt: '', v: 1 });

describe('a store that Dexie made', () => {
  it('of version 1 opens, keeps what is in it and has a place for what was played', async () => {
    const older = await madeByDexie(1);
    await older.table('phrases').put(textOf('ebb', 'Ebb'));
    older.close();
    const opened = database();
    expect((await phraseStore(opened).list()).texts.map(({ title }) => title)).toEqual(['Ebb']);
    expect(await new CaptureStore(opened).newest(10)).toEqual([]);
  });

  it('of version 2 opens without loss, table by table, and takes more', async () => {
    const take = sampleTake();
    const summary = { ...sampleSummary(), id: 'quay' };
    const { messages, kit } = take;
    const capture = {
      id: 'played',
      at: '2026-05-04T18:20:00.000Z',
      messages,
      kit,
      clickBpm: 92,
      meter: '7/8',
      fileName: undefined,
      isCutShort: false,
    };
    const older = await madeByDexie(2);
    await older.table('summaries').put(summary);
    await older.table('takes').put(packTake('quay', take));
    await older.table('phrases').put(textOf('ebb', 'Ebb'));
    await older.table('kits').put(textOf('boat', 'Boathouse kit'));
    const part = (number: number, from: number, to: number) => ({
      takeId: 'cut',
      part: number,
      packed: packTake('cut', { ...take, messages: messages.slice(from, to) }),
    });
    await older.table('journal').bulkPut([part(1, 2, 3), part(0, 0, 2)]);
    await older.table('plays').put(packCapture(capture, { cyclePartials: 14 }));
    older.close();

    const opened = database();
    const takes = new TakeStore(opened, granted);
    expect((await takes.list()).summaries).toEqual([summary]);
    expect(await takes.get('quay')).toEqual({ ok: true, value: take });
    expect((await phraseStore(opened).list()).texts).toEqual([textOf('ebb', 'Ebb')]);
    expect((await kitStore(opened).list()).texts).toEqual([textOf('boat', 'Boathouse kit')]);
    const [cut] = await unfinishedTakes(opened);
    expect(cut).toMatchObject({ id: 'cut', take });
    await cut!.forget();
    expect(await unfinishedTakes(opened)).toEqual([]);
    expect(await new CaptureStore(opened).newest(10)).toEqual([
      { take: capture, corrections: { cyclePartials: 14 } },
    ]);
    await takes.add(sampleTake('2026-03-02T18:20:00.000Z'), sampleSummary());
    opened.close();

    const again = await madeByDexie(2);
    closers.push(() => again.close());
    expect(await again.table('summaries').count()).toBe(2);
  });
});

describe('one record', () => {
  it('is handed to the disk in the task that asks for it, and told only once it is there', async () => {
    const opened = database();
    await phraseStore(opened).list();
    const begin = vi.spyOn(IDBDatabase.prototype, 'transaction');
    const commit = vi.spyOn(IDBTransaction.prototype, 'commit');
    let isStored = false;
    const put = opened.put('phrases', textOf('ebb', 'Ebb')).then((stored) => {
      isStored = true;
      return stored;
    });
    // Microtasks only: no event of the browser has come in between.
    for (let turn = 0; turn < 20; turn++) await Promise.resolve();
    expect(begin.mock.calls.map(([, mode, options]) => [mode, options])).toEqual([
      ['readwrite', { durability: 'strict' }],
    ]);
    expect(commit).toHaveBeenCalledTimes(1);
    expect(isStored).toBe(false);
    expect(await put).toEqual({ ok: true, value: undefined });
    vi.restoreAllMocks();
    expect((await phraseStore(opened).list()).texts).toHaveLength(1);
  });

  it('that cannot be stored is told, and leaves the store as it was', async () => {
    const opened = database();
    const noRecord = { ...textOf('ebb', 'Ebb'), id: undefined as unknown as string };
    expect((await opened.put('phrases', noRecord)).ok).toBe(false);
    expect((await phraseStore(opened).list()).texts).toEqual([]);
  });
});

describe('a write over several tables', () => {
  it('leaves nothing behind when a part of it fails', async () => {
    const opened = database();
    const written = await opened.write(['phrases', 'kits'], async (transaction) => {
      await transaction.objectStore('phrases').put(textOf('ebb', 'Ebb'));
      throw new DOMException('no room', 'QuotaExceededError');
    });
    expect(written.ok).toBe(false);
    expect((await phraseStore(opened).list()).texts).toEqual([]);
  });
});
