import { detailOf } from '../words/words';

/**
 * Attempts to start something, one at a time: one that was given up, or that another has followed, neither goes on nor,
 * where it fails late, ends what came in its place.
 */
export class StartAttempts {
  readonly #what: string;
  readonly #failed: (sentence: string) => void;
  #current: object | undefined;

  /** `failed` leaves nothing begun behind and tells the sentence. */
  constructor(what: string, failed: (sentence: string) => void) {
    this.#what = what;
    this.#failed = failed;
  }

  /** `start` asks after each wait whether it is still the one. */
  async begin(start: (isCurrent: () => boolean) => Promise<void>): Promise<void> {
    const attempt = (this.#current = {});
    const isCurrent = () => this.#current === attempt;
    try {
      await start(isCurrent);
    } catch (error) {
      if (isCurrent()) this.#failed(notStarted(this.#what, error));
    }
  }

  giveUp(): void {
    this.#current = undefined;
  }
}

const notStarted = (what: string, error: unknown): string =>
  `${what} was not started, since something failed: ${detailOf(error)}. Start again; if that does not help, reload the page.`;
