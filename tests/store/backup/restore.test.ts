import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { GENERAL_MIDI } from '../../../src/kit/built-in-kits';
import { writeKit } from '../../../src/kit/parse-kit';
import type { BackupEntry, RecordEntry } from '../../../src/store/backup/backup-entry';
import { writeBackup } from '../../../src/store/backup/write-backup';
import { packCapture } from '../../../src/store/packed-capture';
import { packTake } from '../../../src/store/packed-take';
import { good } from '../../../src/time/result';
import { runCount } from '../../run-count';
import { sampleSummary, sampleTake } from '../sample-take';
import { arbitraryRecords } from './arbitrary-records';
import { backupOf, CAREFUL, filledStore, planned, putBack } from './filled-store';

const SAVED_AT = '2026-03-01T10:00:00.000Z';
const phraseText = (title: string, tempoBpm: number) =>
  JSON.stringify({
    ...{ title, meter: '4/4', tempoBpm, subdivision: 4, grouping: 'R L K' },
    layers: [{ name: 'Sticking' }],
  });
const phrase = (id: string, title: string, tempoBpm = 90): RecordEntry => ({
  table: 'phrases',
  record: { id, v: 1, title, text: phraseText(title, tempoBpm), savedAt: SAVED_AT },
});
const kit = (title: string, savedAt = SAVED_AT): RecordEntry => ({
  table: 'kits',
  record: { id: title, v: 1, title, text: writeKit({ ...GENERAL_MIDI, title }), savedAt },
});
const take = (id: string): RecordEntry[] => [
  { table: 'takes', record: packTake(id, sampleTake()) },
  { table: 'summaries', record: { ...sampleSummary(), id } },
];
const capture = (id: string, at: string): RecordEntry => ({
  table: 'plays',
  record: packCapture(
    {
      ...{ id, at, messages: [], kit: GENERAL_MIDI, clickBpm: 90, meter: '4/4' },
      ...{ fileName: undefined, isCutShort: false },
    },
    { cyclePartials: 14 },
  ),
});
const part = (takeId: string, part = 0): RecordEntry => ({
  table: 'journal',
  record: { takeId, part, packed: packTake(takeId, sampleTake()) },
});
const settings = fc.dictionary(fc.stringMatching(/^[a-z]{1,9}$/), fc.string({ unit: 'binary' }));

const LAW = { numRuns: runCount(12) };

describe('laws of backup and restore', () => {
  it('into an empty store: the same records and settings', async () => {
    await fc.assert(
      fc.asyncProperty(arbitraryRecords, settings, async (records, texts) => {
        const from = await filledStore(records, texts);
        const to = await filledStore();
        expect(await putBack(await backupOf(from), to)).toEqual({ ok: true, value: undefined });
        const there = (await from.records()).filter((one) => !isFinished(one, records));
        expect(await to.records()).toStrictEqual(there);
        expect(to.storage.settings).toEqual(texts);
      }),
      LAW,
    );
  });

  it('into the store it came from: nothing changes, whatever is chosen', async () => {
    await fc.assert(
      fc.asyncProperty(arbitraryRecords, settings, async (records, texts) => {
        const store = await filledStore(records, texts);
        const before = await store.records();
        const file = await backupOf(store);
        const plan = await planned(file, store);
        expect([plan.records, plan.differing]).toEqual([[], []]);
        await putBack(file, store, { differing: 'replace', settings: 'those of the backup' });
        expect(await store.records()).toStrictEqual(before);
        expect(store.storage.settings).toEqual(texts);
      }),
      LAW,
    );
  });

  it('twice is once, and nothing that was there is lost', async () => {
    await fc.assert(
      fc.asyncProperty(arbitraryRecords, arbitraryRecords, async (theirs, ours) => {
        // Every second record of the other store is under a key of this one.
        const mixed = theirs.map((one, i) => (i % 2 === 0 ? one : underKeyOf(one, ours)));
        const file = await backupOf(await filledStore(mixed));
        const store = await filledStore(ours);
        const before = await store.records();
        await putBack(file, store);
        const once = await store.records();
        for (const record of before) expect(once).toContainEqual(record);
        await putBack(file, store);
        expect(await store.records()).toStrictEqual(once);
        const plan = await planned(file, store);
        expect([plan.records, plan.differing]).toEqual([[], []]);
      }),
      LAW,
    );
  });
});

/** Parts of a take that is there in full are no longer of use. */
const isFinished = ({ table, record }: RecordEntry, all: readonly RecordEntry[]) =>
  table === 'journal' &&
  all.some((one) => one.table === 'takes' && idOf(one) === (record as { takeId: string }).takeId);
const idOf = ({ record }: RecordEntry) => (record as { id: string }).id;

function underKeyOf(one: RecordEntry, others: readonly RecordEntry[]): RecordEntry {
  const other = others.find(({ table }) => table === one.table && table !== 'journal');
  return other ? { ...one, record: { ...(one.record as object), id: idOf(other) } } : one;
}

describe('a plan', () => {
  it('counts what is new, here, mended, another and damaged, table by table', async () => {
    const from = await filledStore([
      ...take('new'),
      ...take('here'),
      ...take('broken here'),
      { table: 'takes', record: { id: 'broken there' } },
      phrase('own-1', 'Ebb', 90),
      phrase('own-2', 'Flow'),
      kit('Boathouse'),
    ]);
    const to = await filledStore([
      ...take('here'),
      { table: 'takes', record: { id: 'broken here', v: 1 } },
      phrase('own-1', 'Ebb', 120),
    ]);
    const { tallies, differing, at } = await planned(await backupOf(from), to);
    expect(at).toBe('2026-05-04T18:20:00.000Z');
    const none = { added: 0, present: 0, mended: 0, differing: 0, damaged: 0, beyond: 0 };
    expect(tallies).toEqual({
      takes: { ...none, added: 1, present: 1, mended: 1, damaged: 1 },
      summaries: { ...none, added: 2, present: 1 },
      phrases: { ...none, added: 1, differing: 1 },
      kits: { ...none, added: 1 },
      journal: none,
      plays: none,
    });
    expect(differing.map(({ record }) => record.title)).toEqual(['Ebb']);
  });

  it('is none where what is here cannot be read', async () => {
    const file = await backupOf(await filledStore(take('new')));
    const to = await filledStore();
    to.database.read = () =>
      Promise.resolve({ ok: false, errors: [{ code: 'LOST', message: '' }] });
    await expect(planned(file, to)).rejects.toThrow();
  });
});

describe('a damaged record', () => {
  it('is in the backup as it is, and is not put back', async () => {
    const damaged: RecordEntry = { table: 'phrases', record: { id: 'own-1', title: NaN } };
    const from = await filledStore([damaged]);
    const to = await filledStore();
    const file = await backupOf(from);
    const lines = await new Response(
      file.stream().pipeThrough(new DecompressionStream('gzip')),
    ).text();
    expect(lines).toContain('"own-1"');
    await putBack(file, to);
    expect(await to.records()).toEqual([]);
  });

  it('is mended by a sound one of the backup', async () => {
    const file = await backupOf(await filledStore(take('quay')));
    const to = await filledStore([{ table: 'takes', record: { id: 'quay' } }]);
    await putBack(file, to);
    expect(await to.records()).toEqual(expect.arrayContaining(take('quay')));
  });
});

describe('a phrase or kit that is another here', () => {
  const theirs = [phrase('own-1', 'Ebb', 90), kit('Boathouse', '2026-04-01T00:00:00.000Z')];
  const ours = [phrase('own-1', 'Ebb', 120), phrase('own-9', 'Ebb, 2'), kit('Boathouse')];

  it('stays, and that of the backup comes beside it under a free title', async () => {
    const to = await filledStore(ours);
    await putBack(await backupOf(await filledStore(theirs)), to);
    const records = await to.records();
    expect(records).toEqual(expect.arrayContaining(ours));
    const titles = records.map(({ record }) => (record as { title: string }).title).sort();
    expect(titles).toEqual(['Boathouse', 'Boathouse, 2', 'Ebb', 'Ebb, 2', 'Ebb, 3']);
    for (const { record } of records) {
      const { title, text } = record as { title: string; text: string };
      expect(JSON.parse(text)).toMatchObject({ title });
    }
    const tempos = records.map(
      ({ record }) => JSON.parse((record as { text: string }).text).tempoBpm,
    );
    expect(tempos).toEqual(expect.arrayContaining([90, 120]));
  });

  it('is replaced where the player chooses that', async () => {
    const to = await filledStore(ours);
    await putBack(await backupOf(await filledStore(theirs)), to, {
      ...CAREFUL,
      differing: 'replace',
    });
    const kept = [...theirs, ours[1]!];
    expect(await to.records()).toHaveLength(kept.length);
    expect(await to.records()).toEqual(expect.arrayContaining(kept));
  });
});

describe('settings that are others here', () => {
  const theirs = { rigs: '[7]', theme: '"dark"' };
  const ours = { rigs: '[3]', port: '{}' };

  it.each([
    ['these', { ...theirs, ...ours }],
    ['those of the backup', { ...ours, ...theirs }],
  ] as const)('%s count as chosen', async (settings, expected) => {
    const to = await filledStore([], ours);
    const file = await backupOf(await filledStore([], theirs));
    await putBack(file, to, { ...CAREFUL, settings });
    expect(to.storage.settings).toEqual(expected);
    expect(to.storage.items.get('of another program')).toBe('1');
  });
});

describe('what tabs have noted of unsaved edits', () => {
  it('stays theirs, also where an earlier backup holds it', async () => {
    async function* earlier() {
      for (const name of ['unsaved edits', 'unsaved edits of tab own-1', 'rigs'])
        yield good<readonly BackupEntry[]>([{ setting: name, text: '"theirs"' }]);
    }
    const written = await writeBackup(earlier(), SAVED_AT);
    if (!written.ok) throw new Error('no backup');
    const ours = { 'unsaved edits of tab own-1': '"ours"' };
    const to = await filledStore([], ours);
    const choice = { ...CAREFUL, settings: 'those of the backup' } as const;
    await putBack(written.value.file, to, choice);
    expect(to.storage.settings).toEqual({ ...ours, rigs: '"theirs"' });
  });
});

describe('captures', () => {
  const dayOf = (day: number) => `2026-03-${String(day).padStart(2, '0')}T10:00:00.000Z`;
  const captures = (from: number, to: number, name: string) =>
    Array.from({ length: to - from + 1 }, (_, i) => capture(`${name}${i}`, dayOf(from + i)));

  it('come back as far as there is room, the newest first, and put none of those here out', async () => {
    const file = await backupOf(await filledStore(captures(11, 20, 'their')));
    const ours = captures(1, 8, 'our');
    const to = await filledStore(ours);
    expect((await planned(file, to)).tallies.plays).toMatchObject({ added: 2, beyond: 8 });
    await putBack(file, to);
    const records = await to.records();
    expect(records).toHaveLength(10);
    expect(records).toEqual(
      expect.arrayContaining([
        ...ours,
        ...captures(19, 20, 'x').map((one, i) => ({
          ...one,
          record: { ...(one.record as object), id: `their${8 + i}` },
        })),
      ]),
    );
  });
});

describe('captures of a machine whose clock was set back', () => {
  it('come back in the order they were captured in', async () => {
    const [first, ...later] = ['2026-03-20', '2026-03-01', '2026-03-02'].map((day, i) => {
      const { table, record } = capture(`their${i}`, `${day}T10:00:00.000Z`);
      return { table, record: { ...(record as object), order: 100 + i } };
    });
    const file = await backupOf(await filledStore([first!, ...later]));
    const ours = Array.from({ length: 8 }, (_, i) => capture(`our${i}`, SAVED_AT));
    const to = await filledStore(ours);
    await putBack(file, to);
    expect(await to.records()).toEqual(expect.arrayContaining(later));
    expect(await to.records()).not.toContainEqual(first);
  });
});

describe('parts of a take that was cut short', () => {
  it('come back, but for those of a take that is there in full', async () => {
    const file = await backupOf(
      await filledStore([
        part('cut', 0),
        part('cut', 1),
        part('whole'),
        part('here'),
        ...take('whole'),
      ]),
    );
    const to = await filledStore(take('here'));
    await putBack(file, to);
    const parts = (await to.records()).filter(({ table }) => table === 'journal');
    expect(parts).toEqual([part('cut', 0), part('cut', 1)]);
  });
});

describe('what could not be stored', () => {
  it('is in the backup, before what is stored under its key', async () => {
    const from = await filledStore([phrase('own-1', 'Ebb', 90)]);
    const unstored = () => [...take('memory'), phrase('own-1', 'Ebb', 100)];
    const to = await filledStore();
    await putBack(await backupOf({ ...from, unstored }), to);
    const records = await to.records();
    expect(records).toHaveLength(3);
    expect(records).toEqual(expect.arrayContaining(unstored()));
  });
});
