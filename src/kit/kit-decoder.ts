import type { Kit } from './kit';
import { createKitReader, IGNORED, STROKE, UNMAPPED, type KitReader } from './kit-reader';
import { createSetAside, type LiveSetAside } from './live-set-aside';

/**
 * A raw message and what a kit makes of it. There is one such object for all messages of a decoder: read it at once,
 * and keep nothing but its numbers.
 */
export interface KitMessage {
  /** Its own time, integer microseconds on the clock of its source. */
  readonly timeUs: number;
  readonly status: number;
  readonly data1: number;
  readonly data2: number;
  /** IGNORED, STROKE, OPENING, CHOKE or UNMAPPED. */
  readonly kind: number;
  /** MIDI note number; of a STROKE, a CHOKE, and an UNMAPPED note. */
  readonly pad: number;
  /** 1 to 127, of a STROKE and an UNMAPPED note. */
  readonly velocity: number;
  /** Index into VOICES, of a STROKE. */
  readonly voiceNumber: number;
  /** How far the hi-hat is open, 0 closed to 1 open; -1 until the controller has spoken. */
  readonly openness: number;
  /** Number of the STROKE among all strokes of the decoder, from 0 on. */
  readonly stroke: number;
  /** Of a STROKE: 0 kept, 1 double trigger, 2 crosstalk. */
  readonly setAside: number;
  /** Earlier strokes that this STROKE shows to be the kit's fault: so many, their numbers, and which fault. */
  readonly changedCount: number;
  readonly changedStroke: Int32Array;
  readonly changedTo: Uint8Array;
}

/** Whether something was struck, on the kit's map or not. */
export const isStruck = ({ kind }: Pick<KitMessage, 'kind'>): boolean =>
  kind === STROKE || kind === UNMAPPED;

/**
 * Decodes raw messages for everybody who works with them: what was struck, and by the rules for double triggers and
 * crosstalk whose doing it was. Allocates nothing per message.
 *
 * @example new KitDecoder(GENERAL_MIDI).read(5000, 0x99, 38, 64).velocity // => 64
 */
export class KitDecoder implements KitMessage {
  readonly kit: Kit;
  timeUs = 0;
  status = 0;
  data1 = 0;
  data2 = 0;
  kind = IGNORED;
  stroke = -1;
  setAside = 0;
  readonly #reader: KitReader;
  readonly #rule: LiveSetAside;

  constructor(kit: Kit) {
    this.kit = kit;
    this.#reader = createKitReader(kit);
    this.#rule = createSetAside(kit);
  }

  get pad(): number {
    return this.#reader.pad;
  }
  get velocity(): number {
    return this.#reader.velocity;
  }
  get voiceNumber(): number {
    return this.#reader.voiceNumber;
  }
  get openness(): number {
    return this.#reader.openness;
  }
  get changedCount(): number {
    return this.#rule.changedCount;
  }
  get changedStroke(): Int32Array {
    return this.#rule.changedIndex;
  }
  get changedTo(): Uint8Array {
    return this.#rule.changedTo;
  }

  read(timeUs: number, status: number, data1: number, data2: number): KitMessage {
    this.timeUs = timeUs;
    this.status = status;
    this.data1 = data1;
    this.data2 = data2;
    const reader = this.#reader;
    this.kind = reader.read(status, data1, data2);
    if (this.kind === STROKE)
      this.setAside = this.#rule.add(++this.stroke, timeUs, reader.group, reader.velocity);
    return this;
  }

  /** Forgets what came before, so that a take hears what its replay will hear. Strokes are numbered on. */
  reset(): void {
    this.#reader.reset();
    this.#rule.reset();
  }
}
