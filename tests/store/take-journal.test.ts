import { afterEach, describe, expect, it, vi } from 'vitest';
import { PracticeDatabase } from '../../src/store/database';
import { TakeJournal } from '../../src/store/take-journal';
import { unfinishedTakes } from '../../src/store/unfinished-takes';
import { ON_A_STILL_CLOCK } from '../still-clock';
import { sampleTake } from './sample-take';
import { withoutLocks } from './without-locks';

const databases: { name: string; database: PracticeDatabase }[] = [];
function open(name = `journal-${crypto.randomUUID()}`) {
  const database = new PracticeDatabase({ name });
  databases.push({ name, database });
  return { name, database };
}

afterEach(async () => {
  vi.restoreAllMocks();
  for (const { database, name } of databases.splice(0)) {
    database.close();
    await new Promise((resolve) => {
      indexedDB.deleteDatabase(name).onsuccess = resolve;
    });
  }
});

const take = sampleTake();
const part = (from: number, to: number, endUs: number) => ({
  ...take,
  endUs,
  messages: take.messages.slice(from, to),
});

describe('the journal of a take being played', () => {
  it('gives back what was written down, part after part, with the plan of the last', async () => {
    const { database } = open();
    const written = new TakeJournal(database).begin();
    await written.keep(0, part(0, 2, 1_000_000));
    await written.keep(1, part(2, 3, 2_000_000));
    written.leave();
    const [found, ...others] = await unfinishedTakes(database);
    expect(others).toEqual([]);
    const { id } = written;
    expect(found).toMatchObject({ id, take: part(0, 3, 2_000_000), firstPart: 0 });
  });

  it('forgets no part that was written after it was read', async () => {
    const { database } = open();
    const journal = new TakeJournal(database);
    const written = journal.begin();
    written.leave();
    await written.keep(0, part(0, 1, 0));
    const [found] = await unfinishedTakes(database);
    await written.keep(1, part(1, 3, 2_000_000));
    await found!.forget();
    expect(await unfinishedTakes(database)).toMatchObject([
      { take: part(1, 3, 2_000_000), firstPart: 1 },
    ]);
  });

  it('forgets a take that came to its end', async () => {
    const { database } = open();
    const journal = new TakeJournal(database);
    const first = journal.begin();
    const second = journal.begin();
    second.leave();
    await first.keep(0, part(0, 1, 0));
    await second.keep(0, part(0, 1, 0));
    await first.end();
    expect((await unfinishedTakes(database)).map(({ id }) => id)).toEqual([second.id]);
  });

  it('leaves a take alone that some tab is still playing', async () => {
    const { database } = open();
    const playing = new TakeJournal(database).begin();
    await playing.keep(0, part(0, 1, 0));
    expect(await unfinishedTakes(database)).toEqual([]);
  });

  it('leaves it alone where there are no locks, too, and has it once it is over', async () => {
    const restore = withoutLocks();
    const { database } = open();
    const playing = new TakeJournal(database).begin();
    await playing.keep(0, part(0, 1, 0));
    // Two that ask at once are not taken for one that plays.
    const askTwice = () => Promise.all([unfinishedTakes(database), unfinishedTakes(database)]);
    expect(await askTwice()).toEqual([[], []]);
    playing.leave();
    expect(await askTwice()).toMatchObject([[{ id: playing.id }], [{ id: playing.id }]]);
    restore();
  });

  it('waits once for answers about all of them where there are no locks', async () => {
    const restore = withoutLocks();
    const { database } = open();
    const journal = new TakeJournal(database);
    for (let count = 0; count < 10; count++) {
      const written = journal.begin();
      await written.keep(0, part(0, 1, 0));
      written.leave();
    }
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    let found: readonly unknown[] | undefined;
    const finding = unfinishedTakes(database).then((takes) => (found = takes));
    // The store's own deadlines are over once all that are asked about wait.
    await expect.poll(() => vi.getTimerCount(), ON_A_STILL_CLOCK).toBe(10);
    vi.advanceTimersByTime(1000);
    await expect.poll(() => found?.length, ON_A_STILL_CLOCK).toBe(10);
    vi.useRealTimers();
    await finding;
    restore();
  });

  it('says so when nothing can be kept, and finds nothing then', async () => {
    const { database } = open();
    database.close();
    vi.spyOn(IDBFactory.prototype, 'open').mockImplementation(() => {
      throw new DOMException('no', 'InvalidStateError');
    });
    const journal = new TakeJournal(database);
    const kept = await journal.begin().keep(0, part(0, 1, 0));
    const found = await unfinishedTakes(database);
    expect(kept.ok).toBe(false);
    expect(found).toEqual([]);
  });
});
