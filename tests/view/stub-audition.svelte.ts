import type { Heard } from '../../src/practice/audition.svelte';
import type { AuditionParts } from '../../src/view/app-context';

/** Keeps what was asked to be heard. */
export class StubAudition implements AuditionParts {
  key: string | undefined = $state();
  heard: Heard | undefined = $state.raw();
  problem: string | undefined = $state();

  async play(key: string, heard: Heard): Promise<void> {
    this.key = key;
    this.heard = heard;
  }
  change(key: string, heard: Heard): void {
    if (this.key === key) this.heard = heard;
  }
  stop(): void {
    this.key = undefined;
  }
  nowUs(): number | undefined {
    return this.key === undefined ? undefined : 0;
  }
}
