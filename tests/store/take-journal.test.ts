import { afterEach, describe, expect, it } from 'vitest';
import { PracticeDatabase } from '../../src/store/database';
import { TakeJournal } from '../../src/store/take-journal';
import { sampleTake } from './sample-take';

const databases: { name: string; database: PracticeDatabase }[] = [];
function open(name = `journal-${crypto.randomUUID()}`) {
  const database = new PracticeDatabase({ name });
  databases.push({ name, database });
  return { name, database };
}

afterEach(async () => {
  for (const { database, name } of databases.splice(0)) {
    database.close();
    await new Promise((resolve) => {
      indexedDB.deleteDatabase(name).onsuccess = resolve;
    });
  }
});

const noLocks = null;
const take = sampleTake();
const part = (from: number, to: number, endUs: number) => ({
  ...take,
  endUs,
  messages: take.messages.slice(from, to),
});

describe('the journal of a take being played', () => {
  it('gives back what was written down, part after part, with the plan of the last', async () => {
    const { database } = open();
    const written = new TakeJournal(database, noLocks).begin();
    await written.keep(0, part(0, 2, 1_000_000));
    await written.keep(1, part(2, 3, 2_000_000));
    const [found, ...others] = await new TakeJournal(database, noLocks).unfinished();
    expect(others).toEqual([]);
    expect(found).toEqual({ id: written.id, take: part(0, 3, 2_000_000) });
  });

  it('forgets a take that came to its end', async () => {
    const { database } = open();
    const journal = new TakeJournal(database, noLocks);
    const first = journal.begin();
    const second = journal.begin();
    await first.keep(0, part(0, 1, 0));
    await second.keep(0, part(0, 1, 0));
    await first.end();
    expect((await journal.unfinished()).map(({ id }) => id)).toEqual([second.id]);
  });

  it('leaves a take alone that some tab is still playing', async () => {
    const { database } = open();
    const playing = new TakeJournal(database).begin();
    await playing.keep(0, part(0, 1, 0));
    expect(await new TakeJournal(database).unfinished()).toEqual([]);
  });

  it('says so when nothing can be kept, and finds nothing then', async () => {
    const { database } = open();
    database.close();
    const original = indexedDB.open.bind(indexedDB);
    indexedDB.open = () => {
      throw new DOMException('no', 'InvalidStateError');
    };
    const journal = new TakeJournal(database, noLocks);
    const kept = await journal.begin().keep(0, part(0, 1, 0));
    const found = await journal.unfinished();
    indexedDB.open = original;
    expect(kept.ok).toBe(false);
    expect(found).toEqual([]);
  });
});
