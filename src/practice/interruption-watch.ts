import type { AudioStateName } from '../sound/audio-state';
import { GRACE_US } from '../match/follower';

/** Strokes delivered later than this were given up before they came. */
const LATE_MS = GRACE_US / 1000;
/** A flood is over when nothing late has come for this long, ms. Chosen, not measured. */
const FLOOD_OVER_MS = 300;

type Page = Pick<Document, 'visibilityState' | 'addEventListener' | 'removeEventListener'>;

export interface InterruptionDependencies {
  /** The bar now; below 1 in the count-in. */
  readonly bar: () => number;
  /** Takes a sentence for the player. */
  readonly tell: (sentence: string) => void;
  readonly page?: Page;
}

const BUSY =
  'The computer was busy for a moment, and the lane may have halted. Your timing is not affected: each stroke counts at the time it was struck.';

/**
 * Watches a take for what is nobody's playing: the page hidden, the sound paused, the page standing
 * still while strokes wait. Tells each when it is over, the same sentence once. The strokes of that time keep their own
 * times.
 */
export class InterruptionWatch {
  readonly #dependencies: InterruptionDependencies;
  readonly #page: Page;
  #hiddenFrom: number | undefined;
  #silentFrom: number | undefined;
  #isLate = false;
  #lastLateMs = 0;
  #isBusyTold = false;

  constructor(dependencies: InterruptionDependencies) {
    this.#dependencies = dependencies;
    this.#page = dependencies.page ?? document;
    this.#page.addEventListener('visibilitychange', this.#onVisibility);
    this.#onVisibility();
  }

  /** A message that was struck at `timeMs` is handled at `handledMs`. Live path. */
  delivered(timeMs: number, handledMs: number): void {
    if (handledMs - timeMs <= LATE_MS) return;
    this.#isLate = true;
    this.#lastLateMs = handledMs;
  }

  /** The state of the sound, whenever it changes. */
  sound(state: AudioStateName): void {
    const { bar, tell } = this.#dependencies;
    if (state !== 'running') this.#silentFrom ??= bar();
    else if (this.#silentFrom !== undefined) {
      const when = barsWords(this.#silentFrom, bar());
      this.#silentFrom = undefined;
      tell(`The sound was paused ${when}. The take went on, and its strokes are kept.`);
    }
  }

  /** The pump calls this. */
  tick(nowMs: number): void {
    if (!this.#isLate || nowMs - this.#lastLateMs < FLOOD_OVER_MS) return;
    this.#isLate = false;
    // A hidden page is slow by intention, and told as such.
    if (this.#hiddenFrom !== undefined || this.#isBusyTold) return;
    this.#isBusyTold = true;
    this.#dependencies.tell(BUSY);
  }

  end(): void {
    this.#page.removeEventListener('visibilitychange', this.#onVisibility);
  }

  readonly #onVisibility = (): void => {
    const { bar, tell } = this.#dependencies;
    if (this.#page.visibilityState === 'hidden') this.#hiddenFrom ??= bar();
    else if (this.#hiddenFrom !== undefined) {
      const when = barsWords(this.#hiddenFrom, bar());
      this.#hiddenFrom = undefined;
      tell(`The page was hidden ${when}. What was struck meanwhile is kept and judged.`);
    }
  };
}

/** @example barsWords(0, 2) // => 'from the count-in to bar 2' */
export function barsWords(from: number, to: number): string {
  const word = (bar: number) => (bar < 1 ? 'the count-in' : `bar ${bar}`);
  return word(from) === word(to) ? `in ${word(from)}` : `from ${word(from)} to ${word(to)}`;
}
