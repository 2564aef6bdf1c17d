import { packPlay, unpackPlay, type PackedPlay, type Play } from '../../src/store/packed-play';
import type { PlayStore } from '../../src/store/play-store';
import type { StoreProblem } from '../../src/store/store-problem';

/** Plays kept at once and in memory, as they would be on the disk. */
export class StubPlays implements Pick<PlayStore, 'put' | 'newest' | 'remove'> {
  readonly records = new Map<string, PackedPlay>();
  /** When set, nothing is kept, for this reason. */
  problem: StoreProblem | undefined;

  put(play: Play, said: object): Promise<StoreProblem | undefined> {
    if (!this.problem) this.records.set(play.id, packPlay(play, said));
    return Promise.resolve(this.problem);
  }

  /** The last put is the newest: a stub's day has one moment. */
  newest(most: number) {
    const found = [...this.records.values()].reverse().flatMap((packed) => {
      const play = unpackPlay(packed);
      return play ? [{ play, said: packed.said }] : [];
    });
    return Promise.resolve(found.slice(0, most));
  }

  remove(id: string): Promise<void> {
    this.records.delete(id);
    return Promise.resolve();
  }
}
