import type { Inputs } from './inputs/inputs.svelte';

/** Why a session does not do what it should: one sentence, what keeps a take from starting first. */
export class Troubles {
  readonly #inputs: Pick<Inputs, 'kitAway'>;
  /** Why the last start came to nothing. */
  notStarted: string | undefined = $state();
  /** The last start came to nothing since no stroke would have arrived. */
  isRefused = $state(false);
  /** Why nothing of the take that is played can be written down. */
  unwritten: string | undefined = $state();
  /** What is wrong with the sound. */
  sound: string | undefined = $state();

  constructor(inputs: Pick<Inputs, 'kitAway'>) {
    this.#inputs = inputs;
  }

  get first(): string | undefined {
    return this.notStarted ?? this.#kitMissing ?? this.unwritten ?? this.sound;
  }

  /** A start is tried again. */
  startAgain(): void {
    this.notStarted = undefined;
    this.isRefused = false;
  }

  /** Why the last start was refused, as long as it would be again. */
  get #kitMissing(): string | undefined {
    const away = this.isRefused ? this.#inputs.kitAway : undefined;
    return away && `Not started, since no stroke would arrive. ${away.sentence}`;
  }
}
