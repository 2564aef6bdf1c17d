import { isStruck, type KitMessage } from '../../kit/kit-decoder';
import { clamp } from '../../time/whole';
import type { SoundEvent } from '../../sound/sound-event';
import { LEAD_IN_MS, Transport, type TransportDependencies } from '../transport';

/** Chosen: 90 to 110 a minute is slow enough that nobody is half a beat late. */
export const CLICK_BPM = 100;
/** 48 seconds. Chosen: 28 strokes would do, more make the interval narrower. */
export const CLICKS = 80;
const BEAT_MS = 60_000 / CLICK_BPM;
/** A second message of the pad within this is the pad's doing. Chosen, not measured. */
const BOUNCE_MS = 60;
const CLICK_VELOCITY = 110;

/**
 * Clicks to play along to on one pad, and how far from the nearest click as heard each stroke fell.
 * The pad struck first is the pad.
 */
export class LatencyRun {
  readonly beatMs = BEAT_MS;
  /** MIDI note number of the pad; undefined before the first stroke. */
  pad: number | undefined;
  /** Stroke minus nearest click, ms, in the order played, early negative. */
  readonly offsetsMs: number[] = [];
  readonly #transport: Transport;
  #lastMs = -Infinity;

  constructor(dependencies: TransportDependencies, onTick: () => void) {
    this.#transport = new Transport(dependencies, {
      leadInMs: LEAD_IN_MS.calibration,
      sounds: clicksBetween,
      onMessage: (stampUs, message) => this.#receive(stampUs / 1000, message),
      onTick,
    });
  }

  /** Clicks that were due so far, at most all. */
  get clicked(): number {
    return clamp(Math.floor(this.#nowMs() / BEAT_MS) + 1, 0, CLICKS);
  }

  /** Half a beat after the last click a late stroke has had its time. */
  get isOver(): boolean {
    return this.#nowMs() > (CLICKS - 0.5) * BEAT_MS;
  }

  start(): void {
    this.#transport.start();
  }

  stop(): void {
    this.#transport.stop();
  }

  #nowMs(): number {
    return this.#transport.nowUs() / 1000;
  }

  /** A message with its own time from the first click, ms. */
  #receive(sinceMs: number, message: KitMessage): void {
    if (!isStruck(message)) return;
    if (sinceMs < -BEAT_MS / 2 || sinceMs > (CLICKS - 0.5) * BEAT_MS) return;
    this.pad ??= message.pad;
    if (message.pad !== this.pad || sinceMs - this.#lastMs < BOUNCE_MS) return;
    this.#lastMs = sinceMs;
    this.offsetsMs.push(sinceMs - Math.round(sinceMs / BEAT_MS) * BEAT_MS);
  }
}

function clicksBetween(fromUs: number, toUs: number): SoundEvent[] {
  const beatUs = BEAT_MS * 1000;
  const first = Math.ceil(fromUs / beatUs);
  const end = Math.min(CLICKS, Math.ceil(toUs / beatUs));
  return Array.from({ length: Math.max(0, end - first) }, (_, i) => ({
    kind: 'click',
    timeUs: (first + i) * beatUs,
    sound: 'beat',
    velocity: CLICK_VELOCITY,
  }));
}
