import { describe, expect, it, vi } from 'vitest';
import { DamagedRecords } from '../../../src/practice/damaged-records.svelte';
import { Backups } from '../../../src/practice/keeping/backups';
import type { RecordEntry } from '../../../src/store/backup/backup-entry';
import { kitStore, phraseStore } from '../../../src/store/own-text-store';
import { packTake } from '../../../src/store/packed-take';
import { TakeStore } from '../../../src/store/take-store';
import { CAREFUL, filledStore } from '../../store/backup/filled-store';
import { recordsIn } from '../../store/released-store';
import VERSION_2 from '../../store/released/version-2.json';
import { sampleSummary, sampleTake } from '../../store/sample-take';

async function backups(records: readonly RecordEntry[] = []) {
  const { database, storage } = await filledStore(records);
  const takes = new TakeStore(database, () => Promise.resolve(true));
  const damaged = new DamagedRecords();
  const readAgain = vi.fn(() => Promise.resolve());
  return {
    takes,
    damaged,
    readAgain,
    backups: new Backups({
      ...{ database, storage, damaged, readAgain },
      stores: { takes, phrases: phraseStore(database), kits: kitStore(database) },
    }),
  };
}

const AT = '2026-11-29T18:20:00.000Z';
async function saved(from: Backups): Promise<Blob> {
  const written = await from.save(AT);
  if (!written.ok) throw new Error(written.errors[0]!.message);
  return written.value.file;
}

describe('backups', () => {
  it('list a take whose figures were damaged, with figures made anew', async () => {
    const record = recordsIn(VERSION_2, 'takes')[0]!;
    const summary = { id: record['id'], layer: 'x' };
    const from = await backups([
      { table: 'takes', record },
      { table: 'summaries', record: summary },
    ]);
    const to = await backups();
    const opened = await to.backups.open(await saved(from.backups));
    if (!opened.ok || opened.value.kind !== 'backup') throw new Error('no backup');
    expect(await to.backups.putBack(opened.value.plan, CAREFUL)).toEqual({
      ok: true,
      value: undefined,
    });
    expect(to.readAgain).toHaveBeenCalledTimes(1);
    const { summaries } = await to.takes.list();
    expect(summaries).toMatchObject([{ id: record['id'], phraseTitle: 'Quay Steps', layer: 2 }]);
  });

  it('take what they mend off the list of what cannot be read, so that nobody removes it', async () => {
    const record = recordsIn(VERSION_2, 'takes')[0]!;
    const key = String(record['id']);
    const file = await saved((await backups([{ table: 'takes', record }])).backups);
    const to = await backups([{ table: 'takes', record: { id: key } }]);
    to.damaged.add({ table: 'takes', key, record: { id: key } });
    to.damaged.add({ table: 'takes', key: 'other', record: null });
    const opened = await to.backups.open(file);
    if (!opened.ok || opened.value.kind !== 'backup') throw new Error('no backup');
    await to.backups.putBack(opened.value.plan, CAREFUL);
    expect(to.damaged.all.map((one) => one.key)).toEqual(['other']);
    expect((await to.takes.get(key)).ok).toBe(true);
  });

  it('hold what could not be stored and goes with the page', async () => {
    const from = await backups();
    const put = vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('no room', 'QuotaExceededError');
    });
    const { summary, problem } = await from.takes.add(sampleTake(), sampleSummary());
    expect(problem?.code).toBe('FULL');
    put.mockRestore();
    const to = await backups();
    const opened = await to.backups.open(await saved(from.backups));
    if (!opened.ok || opened.value.kind !== 'backup') throw new Error('no backup');
    expect(opened.value.plan.records).toEqual(
      expect.arrayContaining([
        { table: 'takes', record: packTake(summary.id, sampleTake()) },
        { table: 'summaries', record: summary },
      ]),
    );
  });

  it('tell a file that cannot be read', async () => {
    const { backups: one } = await backups();
    const file = new Blob(['{"take":1}']);
    file.text = () => Promise.reject(new DOMException('gone', 'NotReadableError'));
    const opened = await one.open(file);
    expect(opened.ok ? undefined : opened.errors[0]!.code).toBe('FILE_UNREADABLE');
  });
});
