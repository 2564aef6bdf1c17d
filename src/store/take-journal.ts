import type { Take } from '../take/take';
import type { Result } from '../time/result';
import type { PracticeDatabase } from './database';
import { hold } from './hold';
import { packTake } from './packed-take';
import { randomId } from './random-id';
import type { StoreProblem } from './store-problem';

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

/** What a tab holds as long as it plays a take. */
export const nameOfTake = (id: string): string => `take.${id}`;

/**
 * Takes written down part by part while they are played, so that a browser that is killed loses no
 * more than the last part. A take still being played in some tab is known by the name that tab holds.
 */
export class TakeJournal {
  readonly #database: PracticeDatabase;

  constructor(database: PracticeDatabase) {
    this.#database = database;
  }

  begin(): JournalledTake {
    const id = randomId();
    const leave = hold(nameOfTake(id));
    return {
      id,
      keep: (part, take) =>
        this.#database.put('journal', { takeId: id, part, packed: packTake(id, take) }),
      end: async () => {
        await forgetParts(this.#database, id);
        leave();
      },
      leave,
    };
  }
}

/** Forgets the parts of a take; up to `lastPart` where others may have been written since. */
export async function forgetParts(
  database: PracticeDatabase,
  id: string,
  lastPart = Infinity,
): Promise<void> {
  await database.write(['journal'], (transaction) =>
    transaction.objectStore('journal').delete(IDBKeyRange.bound([id, 0], [id, lastPart])),
  );
}
