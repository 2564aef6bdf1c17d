import { describe, expect, it, vi } from 'vitest';
import { DamagedRecords } from '../../../src/practice/damaged-records.svelte';
import type { UnsavedEdit } from '../../../src/practice/compose/unsaved-edits';
import { Backups } from '../../../src/practice/keeping/backups';
import { writeDraft } from '../../../src/phrase/file/write-phrase';
import type { RecordEntry } from '../../../src/store/backup/backup-entry';
import { kitStore, phraseStore } from '../../../src/store/own-text-store';
import { packTake } from '../../../src/store/packed-take';
import { TakeStore } from '../../../src/store/take-store';
import { CAREFUL, filledStore } from '../../store/backup/filled-store';
import { recordsIn } from '../../store/released-store';
import VERSION_2 from '../../store/released/version-2.json';
import { sampleSummary, sampleTake } from '../../store/sample-take';

async function backups(
  records: readonly RecordEntry[] = [],
  unsaved: readonly UnsavedEdit[] = [],
  settings: Readonly<Record<string, string>> = {},
) {
  const { database, storage } = await filledStore(records, settings);
  const takes = new TakeStore(database, () => Promise.resolve(true));
  const damaged = new DamagedRecords();
  const readAgain = vi.fn(() => Promise.resolve());
  return {
    takes,
    phrases: phraseStore(database),
    damaged,
    readAgain,
    backups: new Backups({
      ...{ database, storage, damaged, readAgain },
      unsaved: { ofAllTabs: unsaved },
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

  describe('of edits that the database has not confirmed', () => {
    const textOf = (title: string, tempoBpm = 90) =>
      writeDraft({
        ...{ title, meter: '4/4', tempoBpm, subdivision: 4, grouping: 'R L K' },
        layers: [{ name: 'Sticking', changes: [] }],
      });
    const stored = (id: string, title: string): RecordEntry => ({
      table: 'phrases',
      record: { id, v: 1, title, text: textOf(title), savedAt: '2026-03-01T10:00:00.000Z' },
    });
    const NOTES = {
      'unsaved edits': '{}',
      'unsaved edits of tab own-1': JSON.stringify({ id: 'own-1', text: textOf('Ebb', 120) }),
      theme: '"dark"',
    };

    async function restored(records: readonly RecordEntry[], unsaved: readonly UnsavedEdit[]) {
      const file = await saved((await backups(records, unsaved, NOTES)).backups);
      const to = await backups();
      const opened = await to.backups.open(file);
      if (!opened.ok || opened.value.kind !== 'backup') throw new Error('no backup');
      const { plan } = opened.value;
      await to.backups.putBack(plan, CAREFUL);
      const { texts } = await to.phrases.list();
      return { plan, texts: Object.fromEntries(texts.map(({ title, text }) => [title, text])) };
    }

    it('hold the phrases they make, and none of the tabs’ notes', async () => {
      const { plan, texts } = await restored(
        [stored('own-1', 'Ebb'), stored('own-2', 'Flow'), stored('own-3', 'Slack')],
        [
          { id: 'own-1', text: textOf('Ebb', 120), base: textOf('Ebb') },
          { id: 'own-2', text: textOf('Flow'), base: textOf('Ebb') },
          { id: 'own-4', text: textOf('Spring', 60) },
        ],
      );
      expect(texts).toEqual({
        Ebb: textOf('Ebb', 120),
        Flow: textOf('Flow'),
        Slack: textOf('Slack'),
        Spring: textOf('Spring', 60),
      });
      expect([...plan.newSettings]).toEqual([['theme', '"dark"']]);
    });

    it('hold both where two tabs have changed one', async () => {
      const { texts } = await restored(
        [stored('own-1', 'Ebb')],
        [
          { id: 'own-1', text: textOf('Ebb', 120), base: textOf('Ebb') },
          { id: 'own-1', text: textOf('Ebb', 130), base: textOf('Ebb') },
          { id: 'own-1', text: textOf('Ebb', 140), base: textOf('Ebb', 80) },
        ],
      );
      expect(texts).toEqual({
        Ebb: textOf('Ebb', 120),
        'Ebb, 2': textOf('Ebb, 2', 130),
        'Ebb, 3': textOf('Ebb, 3', 140),
      });
    });
  });

  it('tell a file that cannot be read', async () => {
    const { backups: one } = await backups();
    const file = new Blob(['{"take":1}']);
    file.slice = () => {
      throw new DOMException('gone', 'NotReadableError');
    };
    const opened = await one.open(file);
    expect(opened.ok ? undefined : opened.errors[0]!.code).toBe('FILE_UNREADABLE');
  });
});
