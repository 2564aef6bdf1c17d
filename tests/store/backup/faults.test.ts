import { afterEach, describe, expect, it, vi } from 'vitest';
import { restore } from '../../../src/store/backup/restore';
import { planRestore } from '../../../src/store/backup/restore-plan';
import { storedEntries } from '../../../src/store/backup/stored-entries';
import { writeBackup } from '../../../src/store/backup/write-backup';
import type { RecordEntry } from '../../../src/store/backup/backup-entry';
import { packTake } from '../../../src/store/packed-take';
import { sampleSummary, sampleTake } from '../sample-take';
import { backupOf, CAREFUL, filledStore, MOST_CAPTURES, planned } from './filled-store';

afterEach(() => {
  vi.restoreAllMocks();
  vi.useRealTimers();
});

const phrase = (id: string): RecordEntry => ({
  table: 'phrases',
  record: { id, v: 1, title: id, text: '{}', savedAt: '2026-03-01T10:00:00.000Z' },
});
const take = (id: string): RecordEntry[] => [
  { table: 'takes', record: packTake(id, sampleTake()) },
  { table: 'summaries', record: { ...sampleSummary(), id } },
];
const THEIRS = [...take('a'), ...take('b'), phrase('ebb'), phrase('flow')];
const OURS = [...take('c'), phrase('ours')];
const SETTINGS = { rigs: '[7]', theme: '"dark"' };

/** Lets `after` writes into the store come through; what follows is done to the next one. */
function hinder(
  after: number,
  next: (put: () => IDBRequest<IDBValidKey>) => IDBRequest<IDBValidKey>,
) {
  const put = IDBObjectStore.prototype.put;
  let count = 0;
  return vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (
    this: IDBObjectStore,
    record,
  ) {
    const real = () => put.call(this, record);
    return count++ === after ? next(real) : real();
  });
}

/** A request whose answer nobody hears. */
function silent<T extends IDBRequest>(request: T): T {
  request.addEventListener = () => undefined;
  return request;
}

const PUTS = THEIRS.length;
const EVERY_WRITE = Array.from({ length: PUTS }, (_, i) => i);

async function prepared() {
  const file = await backupOf(await filledStore(THEIRS, SETTINGS));
  const store = await filledStore(OURS, { port: '{}' });
  const before = await store.records();
  const plan = await planned(file, store);
  const isAsBefore = async () => {
    vi.restoreAllMocks();
    vi.useRealTimers();
    expect(await store.records()).toStrictEqual(before);
    expect(store.storage.settings).toEqual({ port: '{}' });
  };
  /** What fails once works the next time. */
  const worksAfterwards = async () => {
    expect(await restore(plan, CAREFUL, store)).toEqual({ ok: true, value: undefined });
    const records = await store.records();
    expect(records).toHaveLength(before.length + THEIRS.length);
    expect(records).toEqual(expect.arrayContaining([...before, ...THEIRS]));
    expect(store.storage.settings).toEqual({ ...SETTINGS, port: '{}' });
  };
  return { file, store, plan, isAsBefore, worksAfterwards };
}

describe('a restore that fails leaves everything as it was', () => {
  it.each(EVERY_WRITE)('write %i throws for want of room', async (after) => {
    const { store, plan, isAsBefore, worksAfterwards } = await prepared();
    hinder(after, () => {
      throw new DOMException('no room', 'QuotaExceededError');
    });
    const written = await restore(plan, CAREFUL, store);
    expect(written.ok ? undefined : written.errors[0]!.code).toBe('FULL');
    await isAsBefore();
    await worksAfterwards();
  });

  it.each(EVERY_WRITE)('the transaction is given up at write %i, twice', async (after) => {
    const { store, plan, isAsBefore, worksAfterwards } = await prepared();
    const put = IDBObjectStore.prototype.put;
    let count = 0;
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(function (
      this: IDBObjectStore,
      one,
    ) {
      const request = put.call(this, one);
      if (count++ % PUTS >= after) this.transaction.abort();
      return request;
    });
    const written = await restore(plan, CAREFUL, store);
    expect(written.ok ? undefined : written.errors[0]!.code).toBe('LOST');
    await isAsBefore();
    await worksAfterwards();
  });

  it.each(EVERY_WRITE)('write %i never answers', async (after) => {
    const { store, plan, isAsBefore, worksAfterwards } = await prepared();
    hinder(after, (put) => silent(put()));
    // One request after the other keeps the transaction open, as one without an answer does.
    const get = IDBObjectStore.prototype.get;
    const holdOpen = (table: IDBObjectStore) => {
      try {
        get.call(table, 'none').onsuccess = () => holdOpen(table);
      } catch {
        // It was given up.
      }
    };
    vi.spyOn(IDBObjectStore.prototype, 'get').mockImplementationOnce(function (
      this: IDBObjectStore,
      key,
    ) {
      holdOpen(this);
      return get.call(this, key);
    });
    const realSetTimeout = globalThis.setTimeout;
    vi.spyOn(globalThis, 'setTimeout').mockImplementation((work: () => void, ms = 0) =>
      // The deadline of a restore, and nothing else, is as long.
      realSetTimeout(work, ms >= 15_000 ? 300 : ms),
    );
    const written = await restore(plan, CAREFUL, store);
    expect(written.ok ? undefined : written.errors[0]!.code).toBe('STUCK');
    await isAsBefore();
    await worksAfterwards();
  });

  it.each(['rigs', 'theme'])('the setting %s cannot be written', async (name) => {
    const { store, plan, isAsBefore, worksAfterwards } = await prepared();
    store.storage.full = [name];
    const written = await restore(plan, CAREFUL, store);
    expect(written.ok ? undefined : written.errors[0]!.code).toBe('FULL');
    store.storage.full = [];
    await isAsBefore();
    await worksAfterwards();
  });
});

describe('a restore whose last step fails', () => {
  it('takes back the settings, too', async () => {
    const { store, plan, isAsBefore, worksAfterwards } = await prepared();
    let transaction: IDBTransaction | undefined;
    hinder(0, (put) => {
      const request = put();
      transaction = request.transaction!;
      return request;
    });
    const setItem = store.storage.setItem.bind(store.storage);
    const settingsSeen: string[] = [];
    store.storage.setItem = (key, text) => {
      setItem(key, text);
      settingsSeen.push(key);
      if (transaction && settingsSeen.length === 2) transaction.abort();
    };
    // The second attempt finds no store to open.
    vi.spyOn(IDBFactory.prototype, 'open').mockImplementation(() => {
      throw new DOMException('no store', 'UnknownError');
    });
    const written = await restore(plan, CAREFUL, store);
    expect(written.ok).toBe(false);
    expect(settingsSeen.length).toBeGreaterThan(1);
    store.storage.setItem = setItem;
    await isAsBefore();
    await worksAfterwards();
  });
});

describe('a backup that cannot read what is kept', () => {
  const REQUESTS = ['getAllKeys', 'get'] as const;

  it.each(REQUESTS)('is none where %s throws', async (request) => {
    const store = await filledStore(THEIRS, SETTINGS);
    vi.spyOn(IDBObjectStore.prototype, request).mockImplementation(() => {
      throw new DOMException('broken', 'UnknownError');
    });
    const written = await writeBackup(storedEntries(store), '2026-05-04T18:20:00.000Z');
    expect(written.ok ? undefined : written.errors[0]!.code).toBe('LOST');
  });

  it.each(REQUESTS)('is none where %s never answers', async (request) => {
    const store = await filledStore(THEIRS, SETTINGS);
    const real = IDBObjectStore.prototype[request] as (...args: unknown[]) => IDBRequest;
    vi.spyOn(IDBObjectStore.prototype, request).mockImplementation(function (
      this: IDBObjectStore,
      ...args: unknown[]
    ) {
      return silent(real.apply(this, args));
    });
    const realSetTimeout = globalThis.setTimeout;
    vi.spyOn(globalThis, 'setTimeout').mockImplementation((work: () => void, ms = 0) =>
      realSetTimeout(work, ms >= 12_000 ? 100 : ms),
    );
    const written = await writeBackup(storedEntries(store), '2026-05-04T18:20:00.000Z');
    expect(written.ok ? undefined : written.errors[0]!.code).toBe('STUCK');
  });

  it('and a plan is none where what is here cannot be read', async () => {
    const file = await backupOf(await filledStore(THEIRS));
    const store = await filledStore(OURS);
    vi.spyOn(IDBObjectStore.prototype, 'get').mockImplementation(() => {
      throw new DOMException('broken', 'UnknownError');
    });
    const plan = await planRestore(file, store, MOST_CAPTURES);
    expect(plan.ok ? undefined : plan.errors[0]!.code).toBe('LOST');
  });
});
