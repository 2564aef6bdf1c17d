/** What comes together is said together, ms. Chosen, not measured. */
const GATHER_MS = 200;

/** Nothing more is said for so long at least, ms. Chosen, not measured: a sentence has been read aloud by then. */
const LEAST_GAP_MS = 4000;

/**
 * What is read aloud while somebody plays: one message in 4 s or in a bar, whichever is longer. What comes sooner waits, of one
 * topic the latest.
 */
export class Announcer {
  #message = $state('');
  #waiting: readonly { readonly topic: string; readonly sentence: string }[] = [];
  #lastMs = -Infinity;
  #timer: ReturnType<typeof setTimeout> | undefined;

  /** The message last given out. */
  get message(): string {
    return this.#message;
  }

  /** @param barMs how long a bar is now, milliseconds */
  say(topic: string, sentence: string, barMs: number): void {
    this.#waiting = this.#waiting.filter((one) => one.topic !== topic);
    if (sentence !== '') this.#waiting = [...this.#waiting, { topic, sentence }];
    if (this.#timer !== undefined) return;
    const nextMs = this.#lastMs + Math.max(LEAST_GAP_MS, barMs);
    this.#timer = setTimeout(
      () => this.#giveOut(),
      Math.max(GATHER_MS, nextMs - performance.now()),
    );
  }

  end(): void {
    clearTimeout(this.#timer);
  }

  #giveOut(): void {
    this.#timer = undefined;
    if (this.#waiting.length === 0) return;
    this.#message = this.#waiting.map(({ sentence }) => sentence).join(' ');
    this.#waiting = [];
    this.#lastMs = performance.now();
  }
}
