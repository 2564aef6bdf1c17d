import type { ClockMap } from '../../clock/audio-clock-map';
import type { Kit } from '../../kit/kit';
import { createKitReader, STROKE, UNMAPPED } from '../../kit/kit-reader';
import { clickPattern, type BeatMark } from '../../sound/click-pattern';
import { sessionSounds } from '../../sound/session-sounds';
import type { SoundEvent } from '../../sound/sound-event';
import type { SoundOutput } from '../../sound/sound-output';
import { createSoundSchedule, type SoundSchedule } from '../../sound/sound-schedule';
import type { RawMessage } from '../../kit/raw-message';
import type { Meter } from '../../time/meter';
import { remainder } from '../../time/whole';
import { MessageLog } from '../../live/message-log';

export interface CaptureClick {
  readonly bpm: number;
  readonly meter: Meter;
  readonly countInBars: number;
}

export interface CaptureRunOptions {
  readonly engine: SoundOutput;
  readonly clockMap: ClockMap;
  readonly nowMs: () => number;
  readonly kit: Kit;
  /** The rig's part of every offset, taken off each message's time. */
  readonly deviceOffsetMs: number;
  /** Undefined to listen without one. */
  readonly click: CaptureClick | undefined;
}

/** Nothing sounds sooner than this after the start, so that the first click is not cut. Chosen, not measured. */
const BEFORE_MS = 600;
/** Who rests so long has stopped; to a click, who rests so many bars. Chosen, not measured. */
export const REST_MS = 4000;
const REST_BARS = 2;
/** Nobody plays one phrase longer without a stop. Chosen: it keeps writing it down quick. */
export const MOST_MS = 300_000;

/**
 * Listens to somebody who plays a phrase several times round, to a click or to none. Messages go into columns of
 * plain numbers, and nothing is worked out before it is over. The pump calls `tick`.
 */
export class CaptureRun {
  /** Performance time, ms, of bar 1 beat 1; without a click, of the beginning. */
  readonly originMs: number;
  /** Strokes so far, the kit's faults among them. */
  strokes = 0;
  /** Strokes on notes that the kit has no pad for. */
  unmapped = 0;
  readonly #options: CaptureRunOptions;
  readonly #log = new MessageLog();
  readonly #reader;
  readonly #sounds: SoundSchedule | undefined;
  readonly #restMs: number;
  #firstMs = Infinity;
  #lastMs = -Infinity;

  constructor(options: CaptureRunOptions) {
    const { engine, clockMap, nowMs, kit, click } = options;
    this.#options = options;
    this.#reader = createKitReader(kit);
    const beatMs = click ? 60_000 / click.bpm : 0;
    const countInMs = click ? click.countInBars * click.meter.beatsPerBar * beatMs : 0;
    this.originMs = nowMs() + BEFORE_MS + countInMs;
    this.#restMs = Math.max(REST_MS, REST_BARS * (click?.meter.beatsPerBar ?? 0) * beatMs);
    this.#sounds =
      click &&
      createSoundSchedule({
        clockMap,
        engine,
        originPerformanceMs: this.originMs,
        fromUs: Math.round(-countInMs * 1000),
        events: (fromUs, toUs) => clicksBetween(click, fromUs, toUs),
      });
  }

  /** Integer microseconds from the origin. */
  nowUs(): number {
    return Math.round((this.#options.nowMs() - this.originMs) * 1000);
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
    return Math.max(0, (this.#options.nowMs() - this.#firstMs) / 1000);
  }

  /** Whether the player has rested, or played long enough. */
  get isOver(): boolean {
    if (this.#firstMs === Infinity) return false;
    const nowMs = this.#options.nowMs();
    return nowMs - this.#lastMs > this.#restMs || nowMs - this.#firstMs > MOST_MS;
  }

  /** A raw message with its own time on the performance clock, ms. */
  receive(timeMs: number, status: number, data1: number, data2: number): void {
    const sinceMs = timeMs - this.originMs - this.#options.deviceOffsetMs;
    this.#log.add(Math.round(sinceMs * 1000), status, data1, data2);
    const kind = this.#reader.read(status, data1, data2);
    if (kind === STROKE) this.strokes++;
    else if (kind === UNMAPPED) this.unmapped++;
    else return;
    if (timeMs < this.#firstMs) this.#firstMs = timeMs;
    if (timeMs > this.#lastMs) this.#lastMs = timeMs;
  }

  tick(): void {
    this.#log.makeRoom();
    this.#sounds?.fill();
  }

  /** Everything that came in; times from the origin, the rig's offset taken off. */
  messages(): RawMessage[] {
    return this.#log.toMessages();
  }

  stop(): void {
    this.#sounds?.stop();
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
