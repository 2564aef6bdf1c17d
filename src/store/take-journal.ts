import type { Take } from '../take/take';
import type { Result } from '../time/result';
import type { PracticeDatabase } from './database';
import { packTake, unpackTake } from './packed-take';
import type { StoreProblem } from './store-problem';
import type { JournalPart } from './tables';
import { randomId } from './random-id';

/** A take that is being written down while it is played. */
export interface JournalledTake {
  readonly id: string;
  /** Writes down one part, numbered from 0: `take` holds only the messages since the part before. */
  keep(part: number, take: Take): Promise<Result<void, StoreProblem>>;
  /** The take is safe elsewhere: forgets its parts. */
  end(): Promise<void>;
  /** The take is over and not safe elsewhere: its parts stay for the next start. */
  leave(): void;
}

type Locks = Pick<LockManager, 'request'>;

const lockOf = (takeId: string) => `layered-phrases.take.${takeId}`;

/**
 * Takes written down part by part while they are played, so that a browser that is killed loses no
 * more than the last part. A take still being played in some tab is known by the lock that tab holds.
 */
export class TakeJournal {
  readonly #database: PracticeDatabase;
  readonly #locks: Locks | null;

  constructor(database: PracticeDatabase, locks: Locks | null = navigator.locks ?? null) {
    this.#database = database;
    this.#locks = locks;
  }

  begin(): JournalledTake {
    const id = randomId();
    let release: (() => void) | undefined;
    this.#locks
      ?.request(lockOf(id), () => new Promise<void>((done) => (release = done)))
      // Without it another tab may take what is played for a take that was cut short: it is kept twice then.
      .catch(() => undefined);
    return {
      id,
      keep: (part, take) =>
        this.#database.put('journal', { takeId: id, part, packed: packTake(id, take) }),
      end: async () => {
        await this.forget(id);
        release?.();
      },
      leave: () => release?.(),
    };
  }

  /** Takes that no tab is playing any more, oldest first, as far as they were written down. */
  async unfinished(): Promise<readonly { readonly id: string; readonly take: Take }[]> {
    const stored = await this.#database.all('journal');
    if (!stored.ok) return [];
    const found: { id: string; take: Take }[] = [];
    for (const id of new Set(stored.value.map(({ takeId }) => takeId))) {
      if (await this.#isPlayed(id)) continue;
      const take = joined(stored.value.filter(({ takeId }) => takeId === id));
      if (take) found.push({ id, take });
    }
    return found.sort((a, b) => (a.take.startedAt < b.take.startedAt ? -1 : 1));
  }

  async forget(id: string): Promise<void> {
    await this.#database.write(['journal'], async (transaction) => {
      const journal = transaction.objectStore('journal');
      const parts = await journal.index('takeId').getAllKeys(id);
      await Promise.all(parts.map((part) => journal.delete(part)));
    });
  }

  async #isPlayed(id: string): Promise<boolean> {
    if (!this.#locks) return false;
    try {
      return !(await this.#locks.request(
        lockOf(id),
        { ifAvailable: true },
        (lock) => lock !== null,
      ));
    } catch {
      return false;
    }
  }
}

/** The last part tells the plan; the messages of all of them follow one another. */
function joined(parts: readonly JournalPart[]): Take | undefined {
  const takes = parts.toSorted((a, b) => a.part - b.part).map(({ packed }) => unpackTake(packed));
  const last = takes.at(-1);
  if (!last) return undefined;
  return { ...last, messages: takes.flatMap((take) => take?.messages ?? []) };
}
