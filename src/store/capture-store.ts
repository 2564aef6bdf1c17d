import type { CaptureTake } from '../capture/capture-take';
import type { Result } from '../time/result';
import type { PracticeDatabase } from './database';
import { packCapture, unpackCapture } from './packed-capture';
import type { StoreProblem } from './store-problem';

/** What was played, with the player's corrections; whoever reads those looks whether they hold. */
export interface StoredCapture {
  readonly take: CaptureTake;
  readonly corrections: unknown;
}

/** What was played to be written down as a phrase: one record each, the newest few of them. */
export class CaptureStore {
  readonly #database: PracticeDatabase;

  constructor(database: PracticeDatabase) {
    this.#database = database;
  }

  /** Keeps a take; one of the same id is replaced. */
  put(take: CaptureTake, corrections: object): Promise<Result<void, StoreProblem>> {
    return this.#database.put('plays', packCapture(take, corrections));
  }

  /** The newest, as many as `most`; those before them are forgotten. One that cannot be read is left where it is. */
  async newest(most: number): Promise<readonly StoredCapture[]> {
    const stored = await this.#database.write(['plays'], async (transaction) => {
      const plays = transaction.objectStore('plays');
      const all = (await plays.index('at').getAll()).reverse();
      await Promise.all(all.slice(most).map(({ id }) => plays.delete(id)));
      return all.slice(0, most);
    });
    if (!stored.ok) return [];
    return stored.value.flatMap((packed) => {
      const take = unpackCapture(packed);
      return take ? [{ take, corrections: packed.said }] : [];
    });
  }

  async remove(id: string): Promise<void> {
    await this.#database.write(['plays'], (transaction) =>
      transaction.objectStore('plays').delete(id),
    );
  }
}
