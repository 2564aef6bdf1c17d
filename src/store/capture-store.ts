import type { CaptureTake } from '../capture/capture-take';
import type { PracticeDatabase } from './database';
import { packCapture, unpackCapture } from './packed-capture';
import type { StoreProblem } from './store-problem';

/** A play, with what the player said of it. */
export interface StoredCapture {
  readonly play: CaptureTake;
  readonly said: unknown;
}

/** What was played to be written down as a phrase: one record each, the newest few of them. */
export class CaptureStore {
  readonly #database: PracticeDatabase;

  constructor(database: PracticeDatabase) {
    this.#database = database;
  }

  /**
   * Keeps a play; one of the same id is replaced.
   *
   * @returns why it is not kept, if it is not
   */
  async put(play: CaptureTake, said: object): Promise<StoreProblem | undefined> {
    const record = packCapture(play, said);
    const stored = await this.#database.write(['plays'], (transaction) =>
      transaction.objectStore('plays').put(record),
    );
    return stored.ok ? undefined : stored.errors[0];
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
      const play = unpackCapture(packed);
      return play ? [{ play, said: packed.said }] : [];
    });
  }

  async remove(id: string): Promise<void> {
    await this.#database.write(['plays'], (transaction) =>
      transaction.objectStore('plays').delete(id),
    );
  }
}
