import type { ClockMap } from '../clock/audio-clock-map';
import type { SoundEvent } from '../sound/sound-event';
import type { SoundOutput } from '../sound/sound-output';
import { createSoundSchedule, type SoundSchedule } from '../sound/sound-schedule';
import { clamp } from '../time/whole';
import { isNoteOn } from '../kit/raw-message';

/** Chosen: 90 to 110 a minute is slow enough that nobody is half a beat late. */
export const CLICK_BPM = 100;
/** 48 seconds. Chosen: 28 strokes would do, more make the interval narrower. */
export const CLICKS = 80;
const BEAT_MS = 60_000 / CLICK_BPM;
/** The clock map settles before the first click. Chosen, not measured. */
const BEFORE_CLICKS_MS = 2000;
/** A second message of the pad within this is the pad's doing. Chosen, not measured. */
const BOUNCE_MS = 60;
const CLICK_VELOCITY = 110;

export interface LatencyRunOptions {
  readonly engine: SoundOutput;
  readonly clockMap: ClockMap;
  readonly nowMs: () => number;
}

/**
 * Clicks to play along to on one pad, and how far from the nearest click as heard each stroke fell.
 * The pad struck first is the pad. The pump calls `tick`.
 */
export class LatencyRun {
  readonly beatMs = BEAT_MS;
  /** Performance time, ms, at which the first click is heard. */
  readonly originMs: number;
  /** MIDI note number of the pad; undefined before the first stroke. */
  pad: number | undefined;
  /** Stroke minus nearest click, ms, in the order played, early negative. */
  readonly offsetsMs: number[] = [];
  readonly #options: LatencyRunOptions;
  readonly #sounds: SoundSchedule;
  #lastMs = -Infinity;

  constructor(options: LatencyRunOptions) {
    this.#options = options;
    this.originMs = options.nowMs() + BEFORE_CLICKS_MS;
    this.#sounds = createSoundSchedule({
      clockMap: options.clockMap,
      engine: options.engine,
      originPerformanceMs: this.originMs,
      fromUs: 0,
      events: clicksBetween,
    });
  }

  /** Clicks that were due so far, at most all. */
  get clicked(): number {
    const elapsedMs = this.#options.nowMs() - this.originMs;
    return clamp(Math.floor(elapsedMs / BEAT_MS) + 1, 0, CLICKS);
  }

  /** Half a beat after the last click a late stroke has had its time. */
  get isOver(): boolean {
    return this.#options.nowMs() - this.originMs > (CLICKS - 0.5) * BEAT_MS;
  }

  tick(): void {
    this.#sounds.fill();
  }

  /** A raw message with its own time on the performance clock, ms. */
  receive(timeMs: number, status: number, note: number, velocity: number): void {
    if (!isNoteOn(status, velocity)) return;
    const sinceMs = timeMs - this.originMs;
    if (sinceMs < -BEAT_MS / 2 || sinceMs > (CLICKS - 0.5) * BEAT_MS) return;
    this.pad ??= note;
    if (note !== this.pad || timeMs - this.#lastMs < BOUNCE_MS) return;
    this.#lastMs = timeMs;
    this.offsetsMs.push(sinceMs - Math.round(sinceMs / BEAT_MS) * BEAT_MS);
  }

  stop(): void {
    this.#sounds.stop();
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
