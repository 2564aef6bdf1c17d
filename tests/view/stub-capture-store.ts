import type { CaptureTake } from '../../src/capture/capture-take';
import { packCapture, unpackCapture, type PackedCapture } from '../../src/store/packed-capture';
import type { Captures } from '../../src/practice/capture/capture-history.svelte';
import type { StoreProblem } from '../../src/store/store-problem';
import { bad, good, type Result } from '../../src/time/result';

/** Plays kept at once and in memory, as they would be on the disk. */
export class StubCaptureStore implements Captures {
  readonly records = new Map<string, PackedCapture>();
  /** When set, nothing is kept, for this reason. */
  problem: StoreProblem | undefined;
  storedLater = (): void => undefined;

  onStoredLater(stored: () => void): void {
    this.storedLater = stored;
  }

  put(take: CaptureTake, corrections: object): Promise<Result<void, StoreProblem>> {
    if (this.problem) return Promise.resolve(bad(this.problem));
    this.records.set(take.id, packCapture(take, corrections));
    return Promise.resolve(good(undefined));
  }

  /** The last put is the newest: a stub's day has one moment. */
  newest(most: number) {
    const found = [...this.records.values()].reverse().flatMap((packed) => {
      const take = unpackCapture(packed);
      return take ? [{ take, corrections: packed.said }] : [];
    });
    return Promise.resolve(found.slice(0, most));
  }

  remove(id: string): Promise<void> {
    this.records.delete(id);
    return Promise.resolve();
  }
}
