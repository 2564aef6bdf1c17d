import type { KitMessage } from '../../kit/kit-decoder';
import { STROKE } from '../../kit/kit-reader';

/** Messages kept: a power of two, some minutes of playing. Chosen, not measured. */
export const TRACE_ROOM = 8192;

/**
 * The last raw messages with the time each was handled, and what the kit made of it. Columns only;
 * nothing is allocated per message. A message has a number, from 0 on, and its place in the columns is
 * `place(number)`.
 */
export class MessageTrace {
  /** The message's own time, milliseconds on the performance clock. */
  readonly stampMs = new Float64Array(TRACE_ROOM);
  /** When the page came to handle it, same clock. */
  readonly handledMs = new Float64Array(TRACE_ROOM);
  readonly status = new Uint8Array(TRACE_ROOM);
  readonly data1 = new Uint8Array(TRACE_ROOM);
  readonly data2 = new Uint8Array(TRACE_ROOM);
  /** What KitReader took it for. */
  readonly kind = new Uint8Array(TRACE_ROOM);
  /** Index into VOICES; -1 when it was no stroke. */
  readonly voice = new Int16Array(TRACE_ROOM);
  /** How far the hi-hat was open then, 0 closed to 1 open; -1 before its controller has spoken. */
  readonly openness = new Float32Array(TRACE_ROOM);
  /** Index into LANE_SET_ASIDE. */
  readonly setAside = new Uint8Array(TRACE_ROOM);
  /** How many came so far: one more than the last number. */
  count = 0;
  #from = 0;
  /** Place of a stroke's message, by the stroke's own number. */
  readonly #placeOfStroke = new Uint16Array(TRACE_ROOM);

  /** Number of the oldest message still told. */
  get first(): number {
    return Math.max(this.#from, this.count - TRACE_ROOM);
  }

  place(number: number): number {
    return number & (TRACE_ROOM - 1);
  }

  /** Begins anew; the numbers go on. */
  clear(): void {
    this.#from = this.count;
  }

  /** One message, as it was handled; its times count on the page's own clock. Live path. */
  add(message: KitMessage, handledMs: number): void {
    const at = this.place(this.count++);
    this.stampMs[at] = message.timeUs / 1000;
    this.handledMs[at] = handledMs;
    this.status[at] = message.status;
    this.data1[at] = message.data1;
    this.data2[at] = message.data2;
    this.kind[at] = message.kind;
    this.openness[at] = message.openness;
    this.setAside[at] = 0;
    this.voice[at] = -1;
    if (message.kind !== STROKE) return;
    this.voice[at] = message.voiceNumber;
    this.setAside[at] = message.setAside;
    this.#placeOfStroke[message.stroke & (TRACE_ROOM - 1)] = at;
    for (let c = 0; c < message.changedCount; c++) {
      const other = this.#placeOfStroke[message.changedStroke[c]! & (TRACE_ROOM - 1)]!;
      this.setAside[other] = message.changedTo[c]!;
    }
  }

  /** Velocities of a pad's strokes as far as the trace reaches back, double triggers and crosstalk left out. */
  velocitiesOf(note: number): number[] {
    const velocities: number[] = [];
    for (let number = this.first; number < this.count; number++) {
      const at = this.place(number);
      if (this.kind[at] === STROKE && this.data1[at] === note && this.setAside[at] === 0)
        velocities.push(this.data2[at]!);
    }
    return velocities;
  }
}
