import type { CaptureTake } from '../../src/capture/capture-take';
import { describe, expect, it, vi } from 'vitest';
import { EDGE_AND_RIM } from '../../src/kit/built-in-kits';

import { CaptureStore } from '../../src/store/capture-store';
import { packCapture } from '../../src/store/packed-capture';
import { freshDatabase } from './fresh-database';
import { ON_A_STILL_CLOCK } from '../still-clock';

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
    await new CaptureStore(database()).put(takeOf('b', 30), {});
    await new CaptureStore(database()).put(takeOf('c', 40), {});
    const found = await new CaptureStore(database()).newest(10);
    expect(found.map(({ take }) => take.id)).toEqual(['c', 'b', 'a']);
    expect(found[2]).toEqual({ take: takeOf('a', 20), corrections: { cyclePartials: 14 } });
  });

  it('is replaced by one of the same id, and forgotten beyond so many', async () => {
    const store = new CaptureStore(database());
    for (const [id, minute] of [
      ['a', 20],
      ['b', 30],
      ['c', 40],
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

  it('is the newest after a clock was set back, and none that was just captured is forgotten', async () => {
    await new CaptureStore(database()).put(takeOf('before', 50), {});
    for (let minute = 20; minute < 30; minute++) {
      const store = new CaptureStore(database());
      if (minute % 2 === 0) await store.newest(10);
      await store.put(takeOf(`after ${minute}`, minute), {});
    }
    // What is said of an older one makes it no newer.
    const store = new CaptureStore(database());
    await store.put(takeOf('after 20', 20), { cyclePartials: 14 });
    const found = await store.newest(10);
    expect(found.map(({ take }) => take.id)).toEqual(
      [29, 28, 27, 26, 25, 24, 23, 22, 21, 20].map((minute) => `after ${minute}`),
    );
    expect(await new CaptureStore(database()).newest(99)).toHaveLength(10);
  });

  it('is newer than what a page before this one or another machine has put there', async () => {
    const store = new CaptureStore(database());
    await store.newest(10);
    await database().put('plays', packCapture(takeOf('older page', 50), {}));
    await database().put('plays', { ...packCapture(takeOf('theirs', 20), {}), order: 8e15 });
    await store.readOrders();
    await store.put(takeOf('ours', 30), {});
    const found = await store.newest(2);
    expect(found.map(({ take }) => take.id)).toEqual(['ours', 'theirs']);
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
    await expect.poll(() => full.mock.calls.length, ON_A_STILL_CLOCK).toBe(4);
    full.mockRestore();
    expect(storedLater).not.toHaveBeenCalled();
    // What cannot be stored the second time waits as long again.
    await expect.poll(() => vi.getTimerCount(), ON_A_STILL_CLOCK).toBeGreaterThan(0);
    vi.advanceTimersByTime(5000);
    vi.useRealTimers();
    await expect.poll(() => storedLater.mock.calls.length).toBe(1);
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
