import type { Heard, HeardStrokes } from '../../src/practice/audition.svelte';
import type { AuditionParts } from '../../src/view/app-context';

/** Keeps what was asked to be heard. */
export class StubAudition implements AuditionParts {
  key: string | undefined = $state();
  heard: Heard | undefined = $state.raw();
  strokes: HeardStrokes | undefined = $state.raw();
  problem: string | undefined = $state();

  async play(key: string, heard: Heard | HeardStrokes): Promise<void> {
    this.key = key;
    this.#take(heard);
  }
  change(key: string, heard: Heard | HeardStrokes): void {
    if (this.key === key) this.#take(heard);
  }
  stop(): void {
    this.key = undefined;
  }
  nowUs(): number | undefined {
    return this.key === undefined ? undefined : 0;
  }

  #take(heard: Heard | HeardStrokes): void {
    if ('strokes' in heard) this.strokes = heard;
    else this.heard = heard;
  }
}
