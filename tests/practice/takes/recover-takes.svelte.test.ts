import { describe, expect, it, vi } from 'vitest';
import { GENERAL_MIDI } from '../../../src/kit/built-in-kits';
import { writePhrase } from '../../../src/phrase/file/write-phrase';
import { recoverTakes } from '../../../src/practice/takes/recover-takes';
import { summaryOf } from '../../../src/practice/takes/take-scoring';
import type { DamagedRecord } from '../../../src/store/database';
import { TakeJournal } from '../../../src/store/take-journal';
import { TakeStore } from '../../../src/store/take-store';
import type { Take } from '../../../src/take/take';
import { beats } from '../../../src/time/beats';
import { phraseOf } from '../../phrase/phrase-of';
import { freshDatabase } from '../../store/fresh-database';

const open = freshDatabase('recovery-under-test');

/** The strokes numbered from `from` up to `to`: their velocities are the numbers. */
const part = (from: number, to: number): Take => ({
  startedAt: '2026-03-01T10:00:00.000Z',
  phraseText: writePhrase(phraseOf({ grouping: 'R L' })),
  passages: [{ fromBar: 1, layer: 1 }],
  tempos: [{ fromBeat: beats(0), bpm: 90 }],
  countInBars: 1,
  endUs: to * 500_000,
  kit: GENERAL_MIDI,
  deviceOffsetMs: 0,
  toleranceMs: undefined,
  reachMs: undefined,
  messages: Array.from({ length: to - from }, (_, i) => ({
    timeUs: (from + i) * 500_000,
    status: 0x99,
    data1: 38,
    data2: from + i,
  })),
});

function bench() {
  const database = open();
  const takes = new TakeStore(database, () => Promise.resolve(true));
  const onDamaged = vi.fn<(damaged: DamagedRecord) => void>();
  return {
    takes,
    journalled: new TakeJournal(database).begin(),
    recover: () => recoverTakes({ database, takes, onDamaged }),
    named: () =>
      onDamaged.mock.calls.map(([{ table, key, record }]) => [
        table,
        key,
        (record as Take).messages.map(({ data2 }) => data2),
      ]),
    strokes: async (id: string) => {
      const found = await takes.get(id);
      return found.ok ? found.value?.messages.map(({ data2 }) => data2) : found.errors;
    },
  };
}

describe('a take that was cut short', () => {
  it('is put into the log once', async () => {
    const { journalled, recover, strokes } = bench();
    await journalled.keep(0, part(1, 3));
    await journalled.keep(1, part(3, 4));
    expect(await recover()).toBe(0);
    journalled.leave();
    expect(await recover()).toBe(1);
    expect(await recover()).toBe(0);
    expect(await strokes(journalled.id)).toEqual([1, 2, 3]);
  });

  it('is not put over the one that was stored in full', async () => {
    const { journalled, recover, strokes, takes } = bench();
    await journalled.keep(0, part(1, 3));
    await takes.add(part(1, 5), summaryOf(part(1, 5))!, journalled.id);
    journalled.leave();
    expect(await recover()).toBe(0);
    expect(await strokes(journalled.id)).toEqual([1, 2, 3, 4]);
  });

  // A frozen page answers nobody, and plays on once it is let go (Page Lifecycle, "frozen").
  it('has all of its strokes where its page played on after another had put it into the log', async () => {
    const { journalled, recover, strokes } = bench();
    await journalled.keep(0, part(1, 3));
    await journalled.keep(1, part(3, 4));
    journalled.leave();
    expect(await recover()).toBe(1);
    await journalled.keep(2, part(4, 6));
    expect(await recover()).toBe(1);
    expect(await strokes(journalled.id)).toEqual([1, 2, 3, 4, 5]);
  });

  it('stays where it is and is named at each start where it cannot be judged', async () => {
    const { journalled, recover, strokes, named } = bench();
    await journalled.keep(0, { ...part(1, 3), phraseText: '{' });
    await journalled.keep(1, { ...part(3, 4), phraseText: '{' });
    journalled.leave();
    for (const starts of [1, 2]) {
      expect(await recover()).toBe(0);
      expect(named()).toEqual(Array(starts).fill(['journal', [journalled.id, 0], [1, 2, 3]]));
    }
    expect(await strokes(journalled.id)).toBeUndefined();
  });
});
