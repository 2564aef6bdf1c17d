import type { ClockMap } from '../clock/audio-clock-map';
import type { Kit } from '../kit/kit';
import { GRACE_US } from '../match/follower';
import type { ClickChoice } from '../sound/click-pattern';
import type { ReferenceMode } from '../sound/session-sounds';
import type { SoundOutput } from '../sound/sound-output';
import { createSoundSchedule, type SoundSchedule } from '../sound/sound-schedule';
import type { LiveTake } from '../live/live-take';
import { soundsBetween } from './sounds-between';

/** The target is laid out this far ahead, so that the lane always has something to show. Chosen, not measured. */
const AHEAD_US = 8_000_000;
/** Notes this far beyond a stroke may compete for it: more than any hit window and offset. Chosen, not measured. */
const BEYOND_STROKES_US = 2_000_000;
/** A change of tempo or layer leaves this much warning. Chosen, not measured: more than any hit window. */
export const NOTICE_US = 1_200_000;
/** Nothing sounds sooner than this after start, so that the first click is not cut. Chosen, not measured. */
const BEFORE_COUNT_IN_MS = 600;

export interface TakeRunOptions {
  readonly take: LiveTake;
  readonly engine: SoundOutput;
  readonly clockMap: ClockMap;
  readonly click: () => ClickChoice;
  readonly reference: () => ReferenceMode;
  readonly nowMs: () => number;
  /** Called when cycle `at` (0-based, of all laid out) is over and its verdicts are in. */
  readonly onCycle: (at: number) => void;
}

/**
 * One take from its count-in until it is stopped: keeps the target laid out ahead, the sounds queued
 * on the audio clock, and the take's strokes and time moving. The pump calls `tick`.
 */
export class TakeRun {
  /** Performance time, ms, at which bar 1 beat 1 is heard. */
  readonly originMs: number;
  readonly #options: TakeRunOptions;
  readonly #sounds: SoundSchedule;
  #take: LiveTake;
  #cyclesTold = 0;
  /** The target is laid out up to here, integer microseconds. */
  #laidUs = -Infinity;

  constructor(options: TakeRunOptions) {
    const { take, engine, clockMap, nowMs } = options;
    this.#take = take;
    this.#options = options;
    const { startUs } = take.timeline;
    this.originMs = nowMs() + BEFORE_COUNT_IN_MS - startUs / 1000;
    this.#layAhead();
    this.#sounds = createSoundSchedule({
      clockMap,
      engine,
      originPerformanceMs: this.originMs,
      fromUs: startUs,
      events: (fromUs, toUs) =>
        soundsBetween(this.take.timeline, options.click(), options.reference(), fromUs, toUs),
    });
  }

  get take(): LiveTake {
    return this.#take;
  }

  /** The playhead: integer microseconds from bar 1 beat 1. */
  nowUs(): number {
    return Math.round((this.#options.nowMs() - this.originMs) * 1000);
  }

  /** The bar the playhead is in, 1-based; below 1 in the count-in. */
  get bar(): number {
    const nowUs = this.nowUs();
    return this.take.timeline.marks.findLast(({ timeUs }) => timeUs <= nowUs)?.bar ?? 0;
  }

  /** A raw message with its own time on the performance clock. What it was, as KitReader says. */
  receive(timeMs: number, status: number, data1: number, data2: number): number {
    const stampUs = Math.round((timeMs - this.originMs) * 1000);
    // After the page has stood still for long, strokes may come before the pump has caught up.
    if (stampUs + BEYOND_STROKES_US > this.#laidUs) this.#layAhead();
    return this.#take.message(stampUs, status, data1, data2);
  }

  /** The notes of the kit mean something else, from the take's first stroke on; the take goes on. */
  useKit(kit: Kit): void {
    this.#take = this.#take.readWith(kit);
    this.#take.advance(this.nowUs());
  }

  tick(): void {
    this.#layAhead();
    this.#sounds.fill();
    const nowUs = this.nowUs();
    this.take.advance(nowUs);
    const { cycles } = this.take.timeline;
    for (;;) {
      const cycle = cycles[this.#cyclesTold];
      if (!cycle || cycle.endUs + this.take.windowUs + GRACE_US > nowUs) return;
      this.#options.onCycle(this.#cyclesTold++);
    }
  }

  /** Another tempo from the next cycle start that leaves notice; when that is. */
  changeTempo(bpm: number): number {
    const fromUs = this.#earliestChangeUs();
    const cycle = this.take.timeline.changeTempo(bpm, fromUs);
    this.#replan(fromUs);
    return cycle.startUs;
  }

  /** Another layer from the next realignment that leaves notice; its bar. */
  changeLayer(layer: number): number {
    const fromUs = this.#earliestChangeUs();
    const bar = this.take.timeline.changeLayer(layer, fromUs);
    this.#replan(fromUs);
    return bar;
  }

  /** What sounds has changed, though not what is due. */
  soundsChanged(): void {
    this.#sounds.cancelFrom(this.nowUs());
    this.#sounds.fill();
  }

  stop(): void {
    this.#sounds.stop();
  }

  #earliestChangeUs(): number {
    return Math.max(0, this.nowUs() + NOTICE_US);
  }

  #replan(fromUs: number): void {
    this.#layAhead();
    this.#sounds.cancelFrom(fromUs);
    this.#sounds.fill();
  }

  #layAhead(): void {
    this.#laidUs = Math.max(0, this.nowUs()) + AHEAD_US;
    this.#take.timeline.extendTo(this.#laidUs);
    this.#take.sync();
  }
}
