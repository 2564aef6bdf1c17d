import type { Kit } from '../kit/kit';
import { STROKE, type KitReader } from '../kit/kit-reader';
import { createSetAside, type LiveSetAside } from '../kit/live-set-aside';

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
  /** Index into LANE_SET_ASIDE; the rule is the take's own. */
  readonly setAside = new Uint8Array(TRACE_ROOM);
  /** How many came so far: one more than the last number. */
  count = 0;
  #from = 0;
  #rule: LiveSetAside;

  constructor(kit: Kit) {
    this.#rule = createSetAside(kit);
  }

  /** Number of the oldest message still told. */
  get first(): number {
    return Math.max(this.#from, this.count - TRACE_ROOM);
  }

  place(number: number): number {
    return number & (TRACE_ROOM - 1);
  }

  /** The notes mean something else from now on. */
  useKit(kit: Kit): void {
    this.#rule = createSetAside(kit);
  }

  /** Begins anew; the numbers go on. */
  clear(): void {
    this.#from = this.count;
  }

  /** One message that `reader` has just read as `kind`. Live path. */
  add(
    stampMs: number,
    handledMs: number,
    status: number,
    data1: number,
    data2: number,
    kind: number,
    reader: KitReader,
  ): void {
    const number = this.count++;
    const at = number & (TRACE_ROOM - 1);
    this.stampMs[at] = stampMs;
    this.handledMs[at] = handledMs;
    this.status[at] = status;
    this.data1[at] = data1;
    this.data2[at] = data2;
    this.kind[at] = kind;
    this.openness[at] = reader.openness;
    this.setAside[at] = 0;
    this.voice[at] = -1;
    if (kind !== STROKE) return;
    this.voice[at] = reader.voiceNumber;
    const rule = this.#rule;
    this.setAside[at] = rule.add(number, stampMs * 1000, reader.group, reader.velocity);
    for (let c = 0; c < rule.changedCount; c++) {
      const other = rule.changedIndex[c]!;
      if (number - other < TRACE_ROOM) this.setAside[this.place(other)] = rule.changedTo[c]!;
    }
  }
}
