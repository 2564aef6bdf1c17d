import type { CaptureTake } from '../../src/capture/capture-take';
import { describe, expect, it, vi } from 'vitest';
import { EDGE_AND_RIM } from '../../src/kit/built-in-kits';

import { CaptureStore } from '../../src/store/capture-store';
import { freshDatabase } from './fresh-database';

const database = freshDatabase('plays-under-test');

const takeOf = (id: string, minute: number): CaptureTake => ({
  id,
  at: `2026-05-04T18:${minute}:00.000Z`,
  messages: [
    { timeUs: -1500, status: 0x99, data1: 38, data2: 112 },
    { timeUs: 36 * 60_000_000, status: 0x99, data1: 36, data2: 90 },
  ],
  kit: EDGE_AND_RIM,
  clickBpm: undefined,
  meter: '7/8',
  fileName: undefined,
  isCutShort: true,
});

describe('what was played', () => {
  it('comes back as it was, the newest first, with what was said of it', async () => {
    await new CaptureStore(database()).put(takeOf('a', 20), { cyclePartials: 14 });
    await new CaptureStore(database()).put(takeOf('b', 40), {});
    await new CaptureStore(database()).put(takeOf('c', 30), {});
    const found = await new CaptureStore(database()).newest(10);
    expect(found.map(({ take }) => take.id)).toEqual(['b', 'c', 'a']);
    expect(found[2]).toEqual({ take: takeOf('a', 20), corrections: { cyclePartials: 14 } });
  });

  it('is replaced by one of the same id, and forgotten beyond so many', async () => {
    const store = new CaptureStore(database());
    for (const [id, minute] of [
      ['a', 20],
      ['b', 40],
      ['c', 30],
    ] as const)
      await store.put(takeOf(id, minute), {});
    await store.put({ ...takeOf('a', 20), isCutShort: false }, {});
    await store.remove('b');
    const left = await store.newest(10);
    expect(left.map(({ take }) => [take.id, take.isCutShort])).toEqual([
      ['c', true],
      ['a', false],
    ]);
    await store.newest(1);
    expect((await store.newest(10)).map(({ take }) => take.id)).toEqual(['c']);
  });

  it('is not kept on a full disk, which is told', async () => {
    const store = new CaptureStore(database());
    await store.newest(1);
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('no room', 'QuotaExceededError');
    });
    const stored = await store.put(takeOf('a', 20), {});
    expect(!stored.ok && stored.errors[0]?.code).toBe('FULL');
  });

  it('waits in memory while the disk is full, and is stored as it was last once there is room', async () => {
    const store = new CaptureStore(database());
    const storedLater = vi.fn();
    store.onStoredLater(storedLater);
    await store.newest(1);
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    const full = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('no room', 'QuotaExceededError');
    });
    await store.put(takeOf('a', 20), {});
    await store.put(takeOf('b', 30), {});
    await store.put({ ...takeOf('a', 20), isCutShort: false }, { cyclePartials: 14 });
    await store.remove('b');
    vi.advanceTimersByTime(5000);
    await vi.waitFor(() => expect(full).toHaveBeenCalledTimes(4));
    full.mockRestore();
    expect(storedLater).not.toHaveBeenCalled();
    // What cannot be stored the second time waits as long again.
    await vi.waitFor(() => expect(vi.getTimerCount()).toBeGreaterThan(0));
    vi.advanceTimersByTime(5000);
    vi.useRealTimers();
    await vi.waitFor(() => expect(storedLater).toHaveBeenCalledOnce());
    const found = await new CaptureStore(database()).newest(10);
    expect(found).toEqual([
      { take: { ...takeOf('a', 20), isCutShort: false }, corrections: { cyclePartials: 14 } },
    ]);
  });

  it('is left alone where a newer version wrote it', async () => {
    const store = new CaptureStore(database());
    await store.put(takeOf('a', 20), {});
    await database().write(['plays'], async (transaction) => {
      const plays = transaction.objectStore('plays');
      await plays.put({ ...(await plays.get('a'))!, v: 99 });
    });
    expect(await store.newest(10)).toEqual([]);
  });
});
