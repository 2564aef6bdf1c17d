import type { AudioState } from '../../sound/audio-state';
import type { Inputs } from '../inputs/inputs.svelte';

/** What is wrong with a take, or kept it from being started: one sentence at a time. */
export class TakeProblems {
  readonly #inputs: Pick<Inputs, 'kitAway'>;
  #sound: string | undefined = $state();
  /** Why nothing of the take that is played can be written down. */
  unwritten: string | undefined = $state();
  /** Why the last take has ended, where nobody stopped it. */
  ended: string | undefined = $state();
  /** Why the last start came to nothing. */
  notStarted: string | undefined = $state();
  /** The last start came to nothing since no stroke would have arrived. */
  isRefused = $state(false);

  constructor(inputs: Pick<Inputs, 'kitAway'>) {
    this.#inputs = inputs;
  }

  get current(): string | undefined {
    return this.notStarted ?? this.#kitMissing ?? this.ended ?? this.unwritten ?? this.#sound;
  }

  /** Why the last start was refused, as long as it would be again. */
  get #kitMissing(): string | undefined {
    const away = this.isRefused ? this.#inputs.kitAway : undefined;
    return away && `Not started, since no stroke would arrive. ${away.sentence}`;
  }

  /** It is tried again. */
  begin(): void {
    this.notStarted = this.ended = this.unwritten = undefined;
    this.isRefused = false;
  }

  hearSound({ name, sentence }: AudioState): void {
    this.#sound = name === 'failed' || name === 'suspended' ? sentence : undefined;
  }
}
