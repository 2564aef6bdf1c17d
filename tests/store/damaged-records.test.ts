import { openDB } from 'idb';
import { afterEach, describe, expect, it } from 'vitest';
import { PracticeDatabase, type DamagedRecord } from '../../src/store/database';
import { packCapture } from '../../src/store/packed-capture';
import { packTake } from '../../src/store/packed-take';
import type { TableName } from '../../src/store/tables';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import { sampleSummary, sampleTake } from './sample-take';

const closers: (() => void)[] = [];
afterEach(() => {
  for (const close of closers.splice(0)) close();
});

const take = packTake('good', sampleTake());
const capture = packCapture(
  {
    id: 'good',
    at: '2026-03-01T10:00:00.000Z',
    messages: [],
    kit: GENERAL_MIDI,
    clickBpm: 90,
    meter: '4/4',
    fileName: undefined,
    isCutShort: false,
  },
  {},
);
const text = { id: 'good', v: 1, title: 'Ebb', text: '{}', savedAt: '2026-03-01T10:00:00.000Z' };
const GOOD: Readonly<Record<TableName, object>> = {
  summaries: { ...sampleSummary(), id: 'good' },
  takes: take,
  phrases: text,
  kits: text,
  journal: { takeId: 'good', part: 0, packed: take },
  plays: { ...capture, order: 7 },
};
const TABLES = Object.keys(GOOD) as TableName[];

/** What no reader can take for such a value. */
function wrongFor(value: unknown): readonly unknown[] {
  if (typeof value === 'string') return [7, null, { at: 1 }, []];
  if (typeof value === 'number') return ['x', null, NaN, []];
  if (typeof value === 'boolean') return ['x', null, 1, {}];
  return ['x', null, 7, { length: 3 }];
}

/** The good record under other ids, with one thing wrong in each: twelve ways. */
function damages(table: TableName): object[] {
  const good = GOOD[table] as Record<string, unknown>;
  const key = table === 'journal' ? 'takeId' : 'id';
  const fields = Object.keys(good).filter(
    (name) => ![key, 'part', 'said'].includes(name) && good[name] !== undefined,
  );
  const wrong = [0, 1, 2, 3].flatMap((n) =>
    fields.map((name) => ({ ...good, [name]: wrongFor(good[name])[n] })),
  );
  const part = table === 'journal' ? { part: 0 } : {};
  return [...wrong, { v: 1 }, {}]
    .slice(-12)
    .concat(wrong.slice(0, 6))
    .map((record, n) => ({ ...record, [key]: `damaged ${n}`, ...part }));
}

async function filled(table: TableName, records: readonly object[]) {
  const name = `damaged-${table}-${crypto.randomUUID()}`;
  const found: DamagedRecord[] = [];
  const database = new PracticeDatabase({ name, onDamaged: (damaged) => found.push(damaged) });
  closers.push(() => database.close());
  await database.all(table);
  const raw = await openDB(name);
  for (const record of [GOOD[table], ...records]) await raw.put(table, record);
  raw.close();
  return { database, found };
}

describe.each(TABLES)('damaged records of %s', (table) => {
  it('are told of and hide no good one', async () => {
    const wrong = damages(table);
    const { database, found } = await filled(table, wrong);
    const all = await database.all(table);
    expect(all).toEqual({ ok: true, value: [GOOD[table]] });
    expect(found).toHaveLength(wrong.length);
    expect(new Set(found.map((damaged) => damaged.table))).toEqual(new Set([table]));
  });
});
