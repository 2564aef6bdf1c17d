import type { ClockMap } from '../clock/audio-clock-map';
import { startPump } from '../clock/pump';
import { keepScreenOn, type ScreenWakeLock } from '../clock/wake-lock';
import type { KitDecoder, KitMessage } from '../kit/kit-decoder';
import type { PlayedTo } from '../midi/stroke-source';
import type { AudioEngine } from '../sound/audio-engine';
import type { SoundEvent } from '../sound/sound-event';
import type { SoundOutput } from '../sound/sound-output';
import { createSoundSchedule, type SoundSchedule } from '../sound/sound-schedule';
import type { Inputs } from './inputs/inputs.svelte';
import type { Rigs } from './calibration/rigs.svelte';

/** From the start until the first thing that is heard or due, ms. Chosen, not measured. */
export const LEAD_IN_MS = {
  /** Before a count-in: the first click is not cut. */
  countIn: 600,
  /** Before what is only listened to: more than the clocks need to agree. */
  audition: 300,
  /** Before the clicks of a calibration: the clock map settles. */
  calibration: 2000,
  /** And where a microphone settles too. */
  microphone: 1500,
} as const;

/** What transports work with; the same for all of a page. */
export interface TransportDependencies {
  /** Sound and its clock; without them a transport is silent. */
  readonly engine?: SoundOutput & Pick<AudioEngine, 'observe'>;
  readonly clockMap?: ClockMap;
  /** Where messages come from, and who else plays along. */
  readonly inputs?: Pick<Inputs, 'tap' | 'follow'>;
  /** Looked at as long as something runs. */
  readonly rigs?: Pick<Rigs, 'look'>;
  /** Performance time, ms. */
  readonly nowMs?: () => number;
  readonly pump?: typeof startPump;
  readonly screenOn?: () => Pick<ScreenWakeLock, 'release'>;
}

/** What one transport carries. Times are integer microseconds from bar 1 beat 1, the count-in negative. */
export interface TransportOptions {
  readonly leadInMs: number;
  /** Where it begins; 0 unless given. */
  readonly fromUs?: number;
  /** What sounds from `fromUs` up to but not including `toUs`, in time order; nothing unless given. */
  readonly sounds?: (fromUs: number, toUs: number) => readonly SoundEvent[];
  /** What a file or a simulated player plays to, if one is to play along. */
  readonly timeline?: PlayedTo['timeline'] | undefined;
  /** Takes each message with its own time. Live path. */
  readonly onMessage?: (stampUs: number, message: KitMessage) => void;
  /** Told when the notes of the kit mean something else: later messages come from `decoder`. */
  readonly onKit?: (decoder: KitDecoder) => void;
  /** Called about ten times a second, before sounds are queued. */
  readonly onTick: () => void;
}

/**
 * What moves while something is played, heard or measured, in one place: the origin of its time, the pump, both
 * clocks, the sounds queued ahead, the messages that come in, and the screen kept on for who strikes.
 */
export class Transport {
  /** Performance time of bar 1 beat 1, integer microseconds. */
  readonly originUs: number;
  readonly #dependencies: TransportDependencies;
  readonly #options: TransportOptions;
  readonly #nowMs: () => number;
  readonly #schedule: SoundSchedule | undefined;
  readonly #ends: (() => void)[] = [];

  /** Its time runs from here on; `start` lets it sound and hear. */
  constructor(dependencies: TransportDependencies, options: TransportOptions) {
    const { engine, clockMap, nowMs = () => performance.now() } = dependencies;
    const { leadInMs, fromUs = 0, sounds } = options;
    this.#dependencies = dependencies;
    this.#options = options;
    this.#nowMs = nowMs;
    this.originUs = Math.round((nowMs() + leadInMs) * 1000) - fromUs;
    if (engine && clockMap && sounds)
      this.#schedule = createSoundSchedule({
        clockMap,
        engine,
        originPerformanceMs: this.originUs / 1000,
        fromUs,
        events: sounds,
      });
  }

  /** Integer microseconds from bar 1 beat 1. */
  nowUs(): number {
    return Math.round(this.#nowMs() * 1000) - this.originUs;
  }

  /** Begins, with a first tick at once: the pump's thread may take longer to come up than the first click has time. */
  start(): void {
    const { inputs, pump = startPump, screenOn = keepScreenOn } = this.#dependencies;
    const { onMessage, onKit, timeline } = this.#options;
    const { originUs } = this;
    if (inputs && onMessage) {
      const screen = screenOn();
      const tap = {
        onMessage: (message: KitMessage) => onMessage(message.timeUs - originUs, message),
        ...(onKit && { onKit }),
      };
      this.#ends.push(() => screen.release(), inputs.tap(tap));
      if (timeline)
        this.#ends.push(
          inputs.follow({ originMs: originUs / 1000, nowUs: () => this.nowUs(), timeline }),
        );
    }
    this.#ends.push(pump(() => this.#tick()));
    this.#tick();
  }

  /** What sounds from `fromUs` on has changed: what is queued there is asked for again. */
  renewSounds(fromUs = this.nowUs()): void {
    this.#schedule?.cancelFrom(fromUs);
    this.#schedule?.fill();
  }

  /** Ends everything at once, for good. */
  stop(): void {
    this.#schedule?.stop();
    for (const end of this.#ends.splice(0)) end();
  }

  #tick(): void {
    const { engine, clockMap, rigs } = this.#dependencies;
    const reading = engine?.observe();
    if (reading) clockMap?.observe(reading);
    rigs?.look();
    this.#options.onTick();
    this.#schedule?.fill();
  }
}
