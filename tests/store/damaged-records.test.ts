import { openDB } from 'idb';
import { afterEach, describe, expect, it } from 'vitest';
import { openTake } from '../../src/live/open-take';
import { writePhrase } from '../../src/phrase/file/write-phrase';
import { PracticeDatabase, type DamagedRecord } from '../../src/store/database';
import { packCapture } from '../../src/store/packed-capture';
import { packTake } from '../../src/store/packed-take';
import { isSound } from '../../src/store/record-shapes';
import type { TableName } from '../../src/store/tables';
import { GENERAL_MIDI } from '../../src/kit/built-in-kits';
import type { Take } from '../../src/take/take';
import { beats } from '../../src/time/beats';
import { phraseOf } from '../phrase/phrase-of';
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

/** A day, microseconds. */
const DAY_US = 24 * 3600 * 1e6;
const readable = { ...sampleTake(), phraseText: writePhrase(phraseOf({ grouping: 'R L' })) };
const at = (timeUs: number) => ({
  passages: [{ fromBar: 1, layer: 1 }],
  tempos: [{ fromBeat: beats(0), bpm: 1 }],
  messages: [{ timeUs, status: 0x99, data1: 38, data2: 90 }],
});

describe('a take that is kept', () => {
  it.each<[string, Partial<Take>, boolean]>([
    ['a stroke a day away', at(DAY_US), true],
    ['a stroke farther away than a day', at(DAY_US + 1), false],
    ['a stroke farther ahead than a day', at(-DAY_US - 1), false],
    ['the slowest tempo', { ...at(0), tempos: [{ fromBeat: beats(0), bpm: 1 }] }, true],
    ['a slower one', { ...at(0), tempos: [{ fromBeat: beats(0), bpm: 0.99 }] }, false],
    ['no tolerance', { ...at(0), toleranceMs: 0 }, true],
    ['less than none', { ...at(0), toleranceMs: -1 }, false],
    ['layer 0', { ...at(0), passages: [{ fromBar: 1, layer: 0 }] }, false],
    ['no passage', { ...at(0), passages: [] }, false],
  ])('%s: is sound where it can be judged, and only there', (_, change, isReadable) => {
    const taken = { ...readable, ...change };
    expect(openTake(taken) !== undefined).toBe(isReadable);
    const packed = packTake('good', taken);
    expect(isSound('takes', packed)).toBe(isReadable);
    expect(isSound('journal', { takeId: 'good', part: 0, packed })).toBe(isReadable);
  });

  it.each([
    [30 * DAY_US, true],
    [30 * DAY_US + 1, false],
  ])('and a capture is sound where nobody played for %i microseconds: %s', (timeUs, sound) => {
    const messages = { timeUs: Float64Array.of(timeUs), status: Uint8Array.of(0x99) };
    const data = { data1: Uint8Array.of(38), data2: Uint8Array.of(90) };
    expect(isSound('plays', { ...capture, ...messages, ...data })).toBe(sound);
  });
});
