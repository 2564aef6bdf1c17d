/** How often new messages are written down, µs: a killed browser loses no more than this and the writing. Chosen. */
export const JOURNAL_EVERY_US = 400_000;

/** Writes down what is played while it is played, one writing at a time. Nothing happens at a stroke. */
export class JournalWriter {
  #lastUs = -Infinity;
  #writing = 0;

  /** Whether the next writing is due; also after a clock was set back. */
  isDue(nowUs: number): boolean {
    return this.#writing === 0 && Math.abs(nowUs - this.#lastUs) >= JOURNAL_EVERY_US;
  }

  async write(nowUs: number, written: Promise<unknown>): Promise<void> {
    this.#lastUs = nowUs;
    this.#writing++;
    try {
      await written;
    } finally {
      this.#writing--;
    }
  }
}
