import type { AuditionPhrase, AuditionStrokes } from '../../src/practice/audition.svelte';
import type { AuditionParts } from '../../src/view/app-context';

/** Keeps what was asked to be heard. */
export class StubAudition implements AuditionParts {
  key: string | undefined = $state();
  heard: AuditionPhrase | undefined = $state.raw();
  strokes: AuditionStrokes | undefined = $state.raw();
  problem: string | undefined = $state();

  async play(key: string, heard: AuditionPhrase | AuditionStrokes): Promise<void> {
    this.key = key;
    this.#take(heard);
  }
  change(key: string, heard: AuditionPhrase | AuditionStrokes): void {
    if (this.key === key) this.#take(heard);
  }
  stop(): void {
    this.key = undefined;
  }
  nowUs(): number | undefined {
    return this.key === undefined ? undefined : 0;
  }

  #take(heard: AuditionPhrase | AuditionStrokes): void {
    if ('strokes' in heard) this.strokes = heard;
    else this.heard = heard;
  }
}
