import type { PracticeDatabase } from './database';

/** How soon what could not be stored is tried again, ms. Chosen: soon after somebody has made room. */
const AGAIN_AFTER_MS = 5000;

/**
 * Tries again to store what is only in memory: every few seconds, and when the store opens at last.
 *
 * @param attempt true when nothing is left to store.
 */
export class StoreAgain {
  readonly #attempt: () => Promise<boolean>;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(database: Pick<PracticeDatabase, 'onOpen'>, attempt: () => Promise<boolean>) {
    this.#attempt = attempt;
    database.onOpen(() => this.#timer !== undefined && void this.#tryNow());
  }

  /** Something is left. */
  later(): void {
    this.#timer ??= setTimeout(() => void this.#tryNow(), AGAIN_AFTER_MS);
  }

  async #tryNow(): Promise<void> {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    if (!(await this.#attempt())) this.later();
  }
}
