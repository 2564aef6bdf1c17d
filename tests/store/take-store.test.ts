import { describe, expect, it, vi } from 'vitest';
import { TakeStore } from '../../src/store/take-store';
import { sampleSummary, sampleTake } from './sample-take';
import { freshDatabase } from './fresh-database';

const database = freshDatabase('takes-under-test');
const granted = () => Promise.resolve(true);

describe('the log of takes', () => {
  it('gives a take back exactly as it was added, from another connection', async () => {
    const take = sampleTake();
    const { summary, problem } = await new TakeStore(database(), granted).add(
      take,
      sampleSummary(),
    );
    expect(problem).toBeUndefined();

    const reopened = new TakeStore(database(), granted);
    const found = await reopened.get(summary.id);
    expect(found.ok).toBe(true);
    if (!found.ok || !found.value) throw new Error('no take');
    const { tempos, ...rest } = found.value;
    const { tempos: played, ...expected } = take;
    expect(rest).toEqual(expected);
    expect(tempos.map(({ fromBeat, bpm }) => [fromBeat.toFraction(), bpm])).toEqual(
      played.map(({ fromBeat, bpm }) => [fromBeat.toFraction(), bpm]),
    );
    expect((await reopened.list()).summaries).toEqual([summary]);
  });

  it('lists newest first', async () => {
    const store = new TakeStore(database(), granted);
    for (const day of ['02', '04', '03']) {
      const startedAt = `2026-03-${day}T07:00:00.000Z`;
      await store.add(sampleTake(startedAt), sampleSummary(startedAt));
    }
    const { summaries } = await store.list();
    expect(summaries.map(({ startedAt }) => startedAt.slice(8, 10))).toEqual(['04', '03', '02']);
  });

  it('takes raw messages from reactive proxies', async () => {
    const take = sampleTake();
    const proxied = { ...take, messages: new Proxy(take.messages, {}) };
    const store = new TakeStore(database(), granted);
    const { summary, problem } = await store.add(proxied, sampleSummary());
    expect(problem).toBeUndefined();
    const found = await store.get(summary.id);
    expect(found.ok && found.value?.messages).toEqual(take.messages);
  });

  it('removes a take and can put it back', async () => {
    const store = new TakeStore(database(), granted);
    const take = sampleTake();
    const { summary } = await store.add(take, sampleSummary());
    expect((await store.remove(summary.id)).ok).toBe(true);
    expect((await store.list()).summaries).toEqual([]);
    expect(await store.get(summary.id)).toEqual({ ok: true, value: undefined });
    expect(await store.restore(summary, take)).toEqual({ ok: true, value: undefined });
    expect((await store.list()).summaries).toEqual([summary]);
  });

  it('asks once, at the first stored take, that the browser keeps the data', async () => {
    const persist = vi.fn(granted);
    const store = new TakeStore(database(), persist);
    expect(store.persisted).toBeUndefined();
    await store.add(sampleTake(), sampleSummary());
    await store.add(sampleTake(), sampleSummary());
    expect(persist).toHaveBeenCalledTimes(1);
    expect(await store.persisted).toBe(true);
  });
});

describe('when a take cannot be stored', () => {
  it('keeps it in memory on a full disk and says so', async () => {
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('no room', 'QuotaExceededError');
    });
    const persist = vi.fn(granted);
    const store = new TakeStore(database(), persist);
    const take = sampleTake();
    const { summary, problem } = await store.add(take, sampleSummary());
    expect(problem?.code).toBe('FULL');
    expect(problem?.message).toContain('Make room');
    expect(persist).not.toHaveBeenCalled();
    expect(store.isOnlyInMemory(summary.id)).toBe(true);
    expect(await store.list()).toEqual({ summaries: [summary], problem });
    expect(await store.get(summary.id)).toEqual({ ok: true, value: take });
    const restored = await store.restore(summary, take);
    expect(!restored.ok && restored.errors[0]?.code).toBe('FULL');

    vi.restoreAllMocks();
    expect((await new TakeStore(database(), granted).list()).summaries).toEqual([]);
    await store.remove(summary.id);
    expect(await store.list()).toEqual({ summaries: [], problem: undefined });
  });

  it('keeps it in memory where the browser opens no store', async () => {
    vi.spyOn(IDBFactory.prototype, 'open').mockImplementation(() => {
      throw new DOMException('not in a private window', 'SecurityError');
    });
    const store = new TakeStore(database(), granted);
    const { summary, problem } = await store.add(sampleTake(), sampleSummary());
    expect(problem?.code).toBe('UNAVAILABLE');
    const { summaries, problem: listing } = await store.list();
    expect(summaries).toEqual([summary]);
    expect(listing?.code).toBe('UNAVAILABLE');
    expect((await store.remove(summary.id)).ok).toBe(true);
    expect((await store.list()).summaries).toEqual([]);
  });

  it('opens the store once more when the browser closed it', async () => {
    const opened = database();
    const store = new TakeStore(opened, granted);
    await store.add(sampleTake(), sampleSummary());
    await opened.read(['summaries'], async ({ db }) => db.close());
    const { problem } = await store.add(sampleTake(), sampleSummary());
    expect(problem).toBeUndefined();
    expect((await store.list()).summaries).toHaveLength(2);
  });

  it('says when a record is of a later form than it can read', async () => {
    const opened = database();
    const store = new TakeStore(opened, granted);
    const { summary } = await store.add(sampleTake(), sampleSummary());
    await opened.write(['takes'], async (transaction) => {
      const takes = transaction.objectStore('takes');
      await takes.put({ ...(await takes.get(summary.id))!, v: 1000 });
    });
    const found = await store.get(summary.id);
    expect(!found.ok && found.errors[0]?.code).toBe('UNREADABLE');
  });
});
