import type { CaptureTake } from '../capture/capture-take';
import type { Result } from '../time/result';
import type { PracticeDatabase } from './database';
import { packCapture, unpackCapture, type PackedCapture } from './packed-capture';
import { StoreAgain } from './store-again';
import type { StoreProblem } from './store-problem';

/** What was played, with the player's corrections; whoever reads those looks whether they hold. */
export interface StoredCapture {
  readonly take: CaptureTake;
  readonly corrections: unknown;
}

/** What was played to be written down as a phrase: one record each, the newest few of them. */
export class CaptureStore {
  readonly #database: PracticeDatabase;
  /** What is not known to be on the disk yet, as it was put last. */
  readonly #inMemory = new Map<string, PackedCapture>();
  readonly #again: StoreAgain;
  #storedLater: () => void = () => undefined;

  constructor(database: PracticeDatabase) {
    this.#database = database;
    this.#again = new StoreAgain(database, () => this.#storeUnstored());
  }

  /** Calls back when all that was only in memory is stored after all. */
  onStoredLater(stored: () => void): void {
    this.#storedLater = stored;
  }

  /** Keeps a take; one of the same id is replaced. What cannot be stored stays in memory, and is tried again. */
  async put(take: CaptureTake, corrections: object): Promise<Result<void, StoreProblem>> {
    const packed = packCapture(take, corrections);
    this.#inMemory.set(take.id, packed);
    const stored = await this.#put(packed);
    if (!stored.ok) this.#again.later();
    return stored;
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
    this.#inMemory.delete(id);
    await this.#database.write(['plays'], (transaction) =>
      transaction.objectStore('plays').delete(id),
    );
  }

  async #put(packed: PackedCapture): Promise<Result<void, StoreProblem>> {
    const stored = await this.#database.put('plays', packed);
    // Another state of the same may have come in the meantime.
    if (stored.ok && this.#inMemory.get(packed.id) === packed) this.#inMemory.delete(packed.id);
    return stored;
  }

  /** Whether nothing is left in memory alone. */
  async #storeUnstored(): Promise<boolean> {
    for (const packed of [...this.#inMemory.values()])
      if (!(await this.#put(packed)).ok) return false;
    this.#storedLater();
    return true;
  }
}
