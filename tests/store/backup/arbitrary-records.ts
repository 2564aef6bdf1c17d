import fc from 'fast-check';
import type { RecordEntry } from '../../../src/store/backup/backup-entry';
import { TABLE_NAMES } from '../../../src/store/tables';

const recordOf = <T>(model: { [K in keyof T]: fc.Arbitrary<T[K]> }) =>
  fc.record(model, { noNullPrototype: true });

const id = fc.stringMatching(/^[0-9a-f]{4,32}$/);
const when = fc.date({ noInvalidDate: true }).map((date) => date.toISOString());
const finite = fc.double({ noNaN: true, noDefaultInfinity: true });
const maybe = fc.option(finite, { nil: undefined });
const byte = fc.nat(255);
const bytes = (length: number) =>
  fc.array(byte, { minLength: length, maxLength: length }).map((list) => Uint8Array.from(list));
/** Times in microseconds, as far from the start as there may be any. */
const columnsUpTo = (mostUs: number) =>
  fc.array(fc.integer({ min: -mostUs, max: mostUs }), { maxLength: 30 }).chain((times) =>
    recordOf({
      timeUs: fc.constant(Float64Array.from(times)),
      status: bytes(times.length),
      data1: bytes(times.length),
      data2: bytes(times.length),
    }),
  );
const DAY_US = 24 * 3600 * 1e6;

const ownText = recordOf({
  id,
  v: fc.constant(1),
  title: fc.string({ unit: 'binary', maxLength: 120 }),
  text: fc.string({ unit: 'binary' }),
  savedAt: when,
});

const summary = recordOf({
  id,
  startedAt: when,
  phraseTitle: fc.string(),
  layer: fc.integer({ min: 1, max: 99 }),
  layerName: fc.string({ unit: 'binary' }),
  tempoBpm: finite,
  seconds: finite,
  notes: fc.nat(),
  asWritten: maybe,
  offsetMeanMs: maybe,
  spreadMs: maybe,
  contrastDb: maybe,
  passed: fc.boolean(),
});

const packedTake = columnsUpTo(DAY_US).chain((messages) =>
  recordOf({
    id,
    v: fc.constant(1),
    startedAt: when,
    phraseText: fc.string({ unit: 'binary' }),
    kitText: fc.string(),
    passages: fc.constantFrom(
      [{ fromBar: 1, layer: 2 }],
      [
        { fromBar: 1, layer: 2 },
        { fromBar: 3, layer: 2, latePartials: -1 },
        { fromBar: 9, layer: 2, countInBars: 2 },
      ],
    ),
    tempos: fc.array(
      recordOf({
        fromBeat: fc.constant('7/3'),
        bpm: fc.double({ min: 1, max: 999, noNaN: true }),
      }),
      { minLength: 1, maxLength: 3 },
    ),
    countInBars: fc.nat(4),
    endUs: finite,
    deviceOffsetMs: finite,
    toleranceMs: fc.option(fc.double({ min: 0, max: 1000, noNaN: true }), { nil: undefined }),
    reachMs: fc.option(fc.double({ min: 0.001, max: 500, noNaN: true }), { nil: undefined }),
    ...Object.fromEntries(
      Object.entries(messages).map(([name, list]) => [name, fc.constant(list)]),
    ),
  }),
);

const packedCapture = columnsUpTo(30 * DAY_US).chain((messages) =>
  recordOf({
    id,
    v: fc.constant(1),
    at: when,
    order: fc.option(fc.integer(), { nil: undefined }),
    kitText: fc.string(),
    clickBpm: maybe,
    meter: fc.constant('7/8'),
    fileName: fc.option(fc.string(), { nil: undefined }),
    isCutShort: fc.boolean(),
    said: fc.anything({ withTypedArray: true, withDate: true, withBigInt: true }),
    ...Object.fromEntries(
      Object.entries(messages).map(([name, list]) => [name, fc.constant(list)]),
    ),
  }),
);

const part = recordOf({ takeId: id, part: fc.nat(50), packed: packedTake });

const RECORDS = {
  summaries: summary,
  takes: packedTake,
  phrases: ownText,
  kits: ownText,
  journal: part,
  plays: packedCapture,
};

/** Records of every table that their tables can hold: no two of one key, and captures no more than are kept. */
export const arbitraryRecords: fc.Arbitrary<readonly RecordEntry[]> = fc
  .tuple(
    ...TABLE_NAMES.map((table) =>
      fc
        .uniqueArray(RECORDS[table] as fc.Arbitrary<object>, {
          maxLength: 5,
          selector: (record) => {
            const { id, takeId, part } = record as Record<string, unknown>;
            return JSON.stringify([id, takeId, part]);
          },
        })
        .map((records) => records.map((record): RecordEntry => ({ table, record }))),
    ),
  )
  .map((tables) => tables.flat());
