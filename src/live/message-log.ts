import { enlarge } from '../match/enlarge';
import type { RawMessage } from '../kit/raw-message';

const ROOM = 8192;

/** Every raw message of a take in order of arrival, kept in columns so that keeping one allocates nothing. */
export class MessageLog {
  count = 0;
  #timeUs = new Float64Array(ROOM);
  #bytes = new Uint8Array(3 * ROOM);

  add(timeUs: number, status: number, data1: number, data2: number): void {
    const m = this.count++;
    if (m === this.#timeUs.length) this.#widen();
    this.#timeUs[m] = timeUs;
    this.#bytes[3 * m] = status;
    this.#bytes[3 * m + 1] = data1;
    this.#bytes[3 * m + 2] = data2;
  }

  /** The place of the last such message that is not among others, from 0; -1 where there is none. */
  lastIndexOf(
    timeUs: number,
    status: number,
    data1: number,
    data2: number,
    others: Pick<ReadonlySet<number>, 'has'>,
  ): number {
    for (let m = this.count - 1; m >= 0; m--)
      if (
        this.#timeUs[m] === timeUs &&
        this.#bytes[3 * m] === status &&
        this.#bytes[3 * m + 1] === data1 &&
        this.#bytes[3 * m + 2] === data2 &&
        !others.has(m)
      )
        return m;
    return -1;
  }

  /** Makes room ahead of need, away from the live path. */
  makeRoom(): void {
    if (this.count > this.#timeUs.length / 2) this.#widen();
  }

  /** The messages from place `from` on. */
  toMessages(from = 0): RawMessage[] {
    return Array.from({ length: this.count - from }, (_, i) => {
      const m = from + i;
      return {
        timeUs: this.#timeUs[m]!,
        status: this.#bytes[3 * m]!,
        data1: this.#bytes[3 * m + 1]!,
        data2: this.#bytes[3 * m + 2]!,
      };
    });
  }

  #widen(): void {
    this.#timeUs = enlarge(this.#timeUs, new Float64Array(2 * this.#timeUs.length));
    this.#bytes = enlarge(this.#bytes, new Uint8Array(2 * this.#bytes.length));
  }
}
