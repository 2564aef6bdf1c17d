import type { CaptureTake } from '../capture/capture-take';
import type { Result } from '../time/result';
import type { PracticeDatabase } from './database';
import { captureOrder, packCapture, unpackCapture, type PackedCapture } from './packed-capture';
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
  /** Of every capture that is known, by id. */
  readonly #orders = new Map<string, number>();
  #areOrdersRead = false;
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
    const inOrder = (await this.readOrders()).toSorted((a, b) => captureOrder(b) - captureOrder(a));
    const beyond = inOrder.slice(most);
    if (beyond.length > 0)
      await this.#database.write(['plays'], (transaction) =>
        Promise.all(beyond.map(({ id }) => transaction.objectStore('plays').delete(id))),
      );
    return inOrder.slice(0, most).flatMap((packed) => {
      const take = unpackCapture(packed);
      if (take) return [{ take, corrections: packed.said }];
      this.#database.setAside({ table: 'plays', key: packed.id, record: packed });
      return [];
    });
  }

  /** Reads what stands there, so that what is put from now on is newer, wherever that has come from. */
  async readOrders(): Promise<readonly PackedCapture[]> {
    const stored = await this.#database.all('plays');
    if (!stored.ok) return [];
    for (const packed of stored.value) this.#orders.set(packed.id, captureOrder(packed));
    this.#areOrdersRead = true;
    return stored.value;
  }

  async remove(id: string): Promise<void> {
    this.#inMemory.delete(id);
    await this.#database.write(['plays'], (transaction) =>
      transaction.objectStore('plays').delete(id),
    );
  }

  async #put(packed: PackedCapture): Promise<Result<void, StoreProblem>> {
    if (!this.#areOrdersRead) await this.readOrders();
    const order = this.#orders.get(packed.id) ?? this.#nextOrder(packed.at);
    this.#orders.set(packed.id, order);
    const stored = await this.#database.put('plays', { ...packed, order });
    // Another state of the same may have come in the meantime.
    if (stored.ok && this.#inMemory.get(packed.id) === packed) this.#inMemory.delete(packed.id);
    return stored;
  }

  #nextOrder(at: string): number {
    return Math.max(captureOrder({ at }), ...[...this.#orders.values()].map((order) => order + 1));
  }

  /** Whether nothing is left in memory alone. */
  async #storeUnstored(): Promise<boolean> {
    for (const packed of [...this.#inMemory.values()])
      if (!(await this.#put(packed)).ok) return false;
    this.#storedLater();
    return true;
  }
}
