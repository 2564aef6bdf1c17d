import { afterEach, describe, expect, it } from 'vitest';
import { parseKit } from '../../src/kit/parse-kit';
import { openTake } from '../../src/live/open-take';
import { parsePhrase } from '../../src/phrase/file/parse-phrase';
import { recoverTakes } from '../../src/practice/takes/recover-takes';
import { CaptureStore } from '../../src/store/capture-store';
import { PracticeDatabase, type DamagedRecord } from '../../src/store/database';
import { kitStore, phraseStore } from '../../src/store/own-text-store';
import { DATABASE_VERSION, versionInBrowser } from '../../src/store/tables';
import { unfinishedTakes } from '../../src/store/unfinished-takes';
import { packTake } from '../../src/store/packed-take';
import { TakeStore } from '../../src/store/take-store';
import { backupOf, filledStore, putBack } from './backup/filled-store';
import { installStore, recordsIn, type ReleasedStore } from './released-store';
import { sampleSummary, sampleTake } from './sample-take';

// Each was written by the code of that time, run in a browser: the first commit that stored anything, the first with a
// journal, the first with captures, the first without the library that had made them until then, one that says who
// played and how the gate looked at it, one with what the player guessed and the codes of findings, and one
// with targets that moved.
const RELEASED = import.meta.glob<ReleasedStore>('./released/*.json', {
  eager: true,
  import: 'default',
});
const NAME = 'released-under-test';
const closers: (() => void)[] = [];
afterEach(() => {
  for (const close of closers.splice(0)) close();
});

function opened() {
  const damaged: DamagedRecord[] = [];
  const database = new PracticeDatabase({ name: NAME, onDamaged: (one) => damaged.push(one) });
  closers.push(() => database.close());
  const takes = new TakeStore(database, () => Promise.resolve(true));
  return { database, takes, damaged };
}

it('every version that was released is tried', () => {
  const versions = Object.values(RELEASED).map(({ version }) => version);
  const all = Array.from({ length: DATABASE_VERSION }, (_, i) => versionInBrowser(i + 1));
  expect([...new Set(versions)].sort()).toEqual(all);
});

it('takes of every version that was packed are tried', () => {
  const packed = Object.values(RELEASED).flatMap((store) => recordsIn(store, 'takes'));
  const { v } = packTake('last', sampleTake());
  const all = Array.from({ length: v }, (_, i) => i + 1);
  expect([...new Set(packed.map((record) => record['v']))].sort()).toEqual(all);
});

describe.each(Object.entries(RELEASED))('%s', (_, store) => {
  it('opens with every take, phrase, kit and capture as it was, and takes more', async () => {
    await installStore(NAME, store);
    const { database, takes, damaged } = opened();
    const { summaries, problem } = await takes.list();
    expect(problem).toBeUndefined();
    expect(summaries).toEqual(recordsIn(store, 'summaries').sort(newestFirst));
    expect(summaries).toHaveLength(2);
    for (const { id } of summaries) {
      const take = await takes.get(id);
      if (!take.ok || !take.value) throw new Error('no take');
      const record = recordsIn(store, 'takes').find((one) => one['id'] === id)!;
      expect(take.value).toMatchObject({
        startedAt: record['startedAt'],
        endUs: record['endUs'],
        deviceOffsetMs: record['deviceOffsetMs'] ?? 0,
        player: record['player'],
        trials: record['trials'],
        guess: record['guess'],
        passages: record['passages'],
        ...(record['silentBars'] !== undefined && { silentBars: record['silentBars'] }),
      });
      expect(openTake(take.value)?.plan.phrase.title).toBe('Quay Steps');
      expect(take.value.messages.map(({ timeUs }) => timeUs)).toEqual([
        ...(record['timeUs'] as Float64Array),
      ]);
    }
    const { texts: phrases } = await phraseStore(database).list();
    expect(phrases).toEqual(recordsIn(store, 'phrases'));
    expect(phrases.map(({ text }) => parsePhrase(text).ok)).toEqual([true]);
    const { texts: kits } = await kitStore(database).list();
    expect(kits).toEqual(recordsIn(store, 'kits'));
    expect(kits.map(({ text }) => parseKit(text).ok)).toEqual([true]);
    const captures = await new CaptureStore(database).newest(10);
    expect(captures.map(({ take }) => take.id)).toEqual(
      recordsIn(store, 'plays').map(({ id }) => id),
    );
    expect((await takes.add(sampleTake(), sampleSummary())).problem).toBeUndefined();
    expect(damaged).toEqual([]);
  });

  it('opens with a take that was cut short, which comes into the log', async () => {
    await installStore(NAME, store);
    const { database, takes, damaged } = opened();
    const cutShort = new Set(recordsIn(store, 'journal').map(({ takeId }) => takeId)).size;
    const onDamaged = (one: DamagedRecord) => damaged.push(one);
    expect(await recoverTakes({ database, takes, onDamaged })).toBe(cutShort);
    expect((await takes.list()).summaries).toHaveLength(2 + cutShort);
    expect(await unfinishedTakes(database)).toEqual([]);
    expect(damaged).toEqual([]);
  });

  it('goes into a backup and out of it whole', async () => {
    await installStore(NAME, store);
    const { database } = opened();
    const file = await backupOf({ database, storage: null, unstored: () => [] });
    const empty = await filledStore();
    await putBack(file, empty);
    const records = store.tables.flatMap(({ name }) =>
      recordsIn(store, name).map((record) => ({ table: name, record })),
    );
    const there = await empty.records();
    expect(there).toHaveLength(records.length);
    expect(there).toEqual(expect.arrayContaining(records));
  });
});

function newestFirst(a: Record<string, unknown>, b: Record<string, unknown>): number {
  return String(a['startedAt']) < String(b['startedAt']) ? 1 : -1;
}
