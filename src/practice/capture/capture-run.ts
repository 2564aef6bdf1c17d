import type { Kit } from '../../kit/kit';
import type { KitMessage } from '../../kit/kit-decoder';
import { STROKE, UNMAPPED } from '../../kit/kit-reader';
import { clickPattern, type BeatMark } from '../../sound/click-pattern';
import { sessionSounds } from '../../sound/session-sounds';
import type { SoundEvent } from '../../sound/sound-event';
import type { RawMessage } from '../../kit/raw-message';
import type { PlayedTo } from '../../midi/stroke-source';
import type { Meter } from '../../time/meter';
import { remainder } from '../../time/whole';
import { MessageLog } from '../../live/message-log';
import { LEAD_IN_MS, Transport, type TransportDependencies } from '../transport';

export interface CaptureClick {
  readonly bpm: number;
  readonly meter: Meter;
  readonly countInBars: number;
}

export interface CaptureRunOptions {
  readonly kit: Kit;
  /** The rig's part of every offset, taken off each message's time. */
  readonly deviceOffsetMs: number;
  /** Undefined to listen without one. */
  readonly click: CaptureClick | undefined;
  /** What a file or a simulated player plays, if anything. */
  readonly timeline: PlayedTo['timeline'] | undefined;
  /** Called about ten times a second. */
  readonly onTick: () => void;
}

/** Who rests so long has stopped; to a click, who rests so many bars. Chosen, not measured. */
export const REST_MS = 4000;
const REST_BARS = 2;
/** Nobody plays one phrase longer without a stop. Chosen: it keeps writing it down quick. */
export const MOST_MS = 300_000;

/**
 * Listens to somebody who plays a phrase several times round, to a click or to none. Messages go into columns of
 * plain numbers, and nothing is worked out before it is over.
 */
export class CaptureRun {
  /** Strokes so far, the kit's faults among them. */
  strokes = 0;
  /** Strokes on notes that the kit has no pad for. */
  unmapped = 0;
  readonly #options: CaptureRunOptions;
  readonly #log = new MessageLog();
  readonly #transport: Transport;
  readonly #deviceOffsetUs: number;
  readonly #restMs: number;
  #firstUs = Infinity;
  #lastUs = -Infinity;

  constructor(dependencies: TransportDependencies, options: CaptureRunOptions) {
    const { click, deviceOffsetMs, timeline, onTick } = options;
    this.#options = options;
    this.#deviceOffsetUs = Math.round(deviceOffsetMs * 1000);
    const barMs = click ? click.meter.beatsPerBar * (60_000 / click.bpm) : 0;
    this.#restMs = Math.max(REST_MS, REST_BARS * barMs);
    this.#transport = new Transport(dependencies, {
      leadInMs: LEAD_IN_MS.countIn,
      fromUs: -Math.round((click?.countInBars ?? 0) * barMs * 1000),
      ...(click && { sounds: (fromUs, toUs) => clicksBetween(click, fromUs, toUs) }),
      timeline,
      onMessage: (stampUs, message) => this.#receive(stampUs, message),
      onTick: () => {
        this.#log.makeRoom();
        onTick();
      },
    });
  }

  /** Integer microseconds from bar 1 beat 1; without a click, from the beginning. */
  nowUs(): number {
    return this.#transport.nowUs();
  }

  get kit(): Kit {
    return this.#options.kit;
  }
  get clickBpm(): number | undefined {
    return this.#options.click?.bpm;
  }

  /** The bar it is, 1-based; below 1 in the count-in, 0 without a click. */
  get bar(): number {
    const { click } = this.#options;
    if (!click) return 0;
    return Math.floor((this.nowUs() * click.bpm) / 60e6 / click.meter.beatsPerBar) + 1;
  }

  /** The beat of the bar it is, 1-based; 0 before the first click, and without a click. */
  get beat(): number {
    const { click } = this.#options;
    const beats = Math.floor((this.nowUs() * (click?.bpm ?? 0)) / 60e6);
    const { beatsPerBar = 0 } = click?.meter ?? {};
    if (!click || beats < -click.countInBars * beatsPerBar) return 0;
    return remainder(beats, beatsPerBar) + 1;
  }

  /** Seconds since the first stroke. */
  get seconds(): number {
    return Math.max(0, (this.nowUs() - this.#firstUs) / 1e6);
  }

  /** Whether the player has rested, or played long enough. */
  get isOver(): boolean {
    if (this.#firstUs === Infinity) return false;
    const nowUs = this.nowUs();
    return nowUs - this.#lastUs > this.#restMs * 1000 || nowUs - this.#firstUs > MOST_MS * 1000;
  }

  start(): void {
    this.#transport.start();
  }

  /** Everything that came in; times from the origin, the rig's offset taken off. */
  messages(): RawMessage[] {
    return this.#log.toMessages();
  }

  stop(): void {
    this.#transport.stop();
  }

  #receive(stampUs: number, { kind, status, data1, data2 }: KitMessage): void {
    this.#log.add(stampUs - this.#deviceOffsetUs, status, data1, data2);
    if (kind === STROKE) this.strokes++;
    else if (kind === UNMAPPED) this.unmapped++;
    else return;
    if (stampUs < this.#firstUs) this.#firstUs = stampUs;
    if (stampUs > this.#lastUs) this.#lastUs = stampUs;
  }
}

function clicksBetween(
  { bpm, meter }: CaptureClick,
  fromUs: number,
  toUs: number,
): readonly SoundEvent[] {
  const beatUs = 60e6 / bpm;
  const marks: BeatMark[] = [];
  for (let k = Math.floor(fromUs / beatUs); k * beatUs <= toUs + 1; k++) {
    const timeUs = Math.round(k * beatUs);
    if (timeUs >= fromUs && timeUs < toUs)
      marks.push({ timeUs, beat: remainder(k, meter.beatsPerBar) + 1 });
  }
  const clicks = clickPattern({ follows: 'meter', beats: 'all' }, marks, []);
  return sessionSounds('off', clicks, []);
}
