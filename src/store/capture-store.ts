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
      const keys = (await plays.index('at').getAllKeys()).reverse();
      await Promise.all(keys.slice(most).map((id) => plays.delete(id)));
      return keys.slice(0, most);
    });
    if (!stored.ok) return [];
    const sound = await this.#database.all('plays');
    if (!sound.ok) return [];
    const byId = new Map(sound.value.map((packed) => [packed.id, packed]));
    return stored.value.flatMap((id) => {
      const packed = byId.get(id);
      const take = packed && unpackCapture(packed);
      if (take) return [{ take, corrections: packed.said }];
      if (packed) this.#database.setAside({ table: 'plays', key: id, record: packed });
      return [];
    });
  }

  async remove(id: string): Promise<void> {
    await this.#database.write(['plays'], (transaction) =>
      transaction.objectStore('plays').delete(id),
    );
  }
}
