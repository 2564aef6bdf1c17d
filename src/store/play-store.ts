import type { PracticeDatabase } from './database';
import { packPlay, unpackPlay, type Play } from './packed-play';
import type { StoreProblem } from './store-problem';

/** A play, with what the player said of it. */
export interface StoredPlay {
  readonly play: Play;
  readonly said: unknown;
}

/** What was played to be written down as a phrase: one record each, the newest few of them. */
export class PlayStore {
  readonly #database: PracticeDatabase;

  constructor(database: PracticeDatabase) {
    this.#database = database;
  }

  /**
   * Keeps a play; one of the same id is replaced.
   *
   * @returns why it is not kept, if it is not
   */
  async put(play: Play, said: object): Promise<StoreProblem | undefined> {
    const record = packPlay(play, said);
    const stored = await this.#database.run((tables) => tables.plays.put(record));
    return stored.ok ? undefined : stored.errors[0];
  }

  /** The newest, as many as `most`; those before them are forgotten. One that cannot be read is left where it is. */
  async newest(most: number): Promise<readonly StoredPlay[]> {
    const stored = await this.#database.run(async ({ plays }) => {
      const all = await plays.orderBy('at').reverse().toArray();
      await plays.bulkDelete(all.slice(most).map(({ id }) => id));
      return all.slice(0, most);
    });
    if (!stored.ok) return [];
    return stored.value.flatMap((packed) => {
      const play = unpackPlay(packed);
      return play ? [{ play, said: packed.said }] : [];
    });
  }

  async remove(id: string): Promise<void> {
    await this.#database.run(({ plays }) => plays.delete(id));
  }
}
