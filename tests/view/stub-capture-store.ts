import type { CaptureTake } from '../../src/capture/capture-take';
import { packCapture, unpackCapture, type PackedCapture } from '../../src/store/packed-capture';
import type { CaptureStore } from '../../src/store/capture-store';
import type { StoreProblem } from '../../src/store/store-problem';

/** Plays kept at once and in memory, as they would be on the disk. */
export class StubCaptureStore implements Pick<CaptureStore, 'put' | 'newest' | 'remove'> {
  readonly records = new Map<string, PackedCapture>();
  /** When set, nothing is kept, for this reason. */
  problem: StoreProblem | undefined;

  put(play: CaptureTake, said: object): Promise<StoreProblem | undefined> {
    if (!this.problem) this.records.set(play.id, packCapture(play, said));
    return Promise.resolve(this.problem);
  }

  /** The last put is the newest: a stub's day has one moment. */
  newest(most: number) {
    const found = [...this.records.values()].reverse().flatMap((packed) => {
      const play = unpackCapture(packed);
      return play ? [{ play, said: packed.said }] : [];
    });
    return Promise.resolve(found.slice(0, most));
  }

  remove(id: string): Promise<void> {
    this.records.delete(id);
    return Promise.resolve();
  }
}
