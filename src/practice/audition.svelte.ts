import type { ClockMap } from '../clock/audio-clock-map';
import { startPump } from '../clock/pump';
import type { Phrase } from '../phrase/model/phrase';
import type { AudioEngine } from '../sound/audio-engine';
import type { ClickChoice } from '../sound/click-pattern';
import type { SoundEvent } from '../sound/sound-event';
import { createSoundSchedule, type SoundSchedule } from '../sound/sound-schedule';
import type { PlayedStroke } from '../capture/played-stroke';
import { beats } from '../time/beats';
import { between } from './between';
import type { LiveTimeline } from '../live/live-timeline';
import { plainTimeline } from '../live/plain-timeline';
import { soundsBetween } from './sounds-between';

export interface AuditionParts {
  readonly engine: AudioEngine;
  readonly clockMap: ClockMap;
  readonly nowMs?: () => number;
  readonly pump?: typeof startPump;
}

/** What is to be heard. */
export interface Heard {
  readonly phrase: Phrase;
  /** 1-based; the last unless given. */
  readonly layer?: number;
  /** Beats per minute; the phrase's own unless given. */
  readonly bpm?: number;
  /** Without the click unless told. */
  readonly click?: boolean;
  /** 1-based; from the beginning, pickup included, unless given. */
  readonly fromBar?: number;
}

/** Strokes as they were played, from the first on, once; in time order. */
export interface HeardStrokes {
  readonly strokes: readonly PlayedStroke[];
}

/** What sounds, laid out as far as is asked for. */
interface Laid {
  /** Where it begins and ends, integer microseconds from bar 1 beat 1. */
  readonly startUs: number;
  readonly endUs: number;
  extendTo(untilUs: number): void;
  /** In time order, from `fromUs` up to but not including `toUs`. */
  sounds(fromUs: number, toUs: number): readonly SoundEvent[];
}

/** The first sound comes so long after the button. Chosen, not measured: more than the clocks need to agree. */
const BEFORE_MS = 300;
const AHEAD_US = 8_000_000;
/** What is heard once is over so long after its last stroke: cymbals ring. Chosen, not measured. */
const RINGS_US = 1_500_000;
const NO_CLICK: ClickChoice = { follows: 'meter', beats: 'none' };
const BEATS: ClickChoice = { follows: 'meter', beats: 'all' };

/**
 * Lets a phrase be heard without being practised, over and over until it is stopped, or strokes once. One thing is heard at a time,
 * under a key of its caller's; what is heard may be changed while it sounds.
 */
export class Audition {
  readonly #parts: AuditionParts;
  readonly #nowMs: () => number;
  #key: string | undefined = $state();
  #problem: string | undefined = $state();
  #originMs = 0;
  #wanted: Heard | HeardStrokes | undefined;
  #laid: Laid | undefined;
  #sounds: SoundSchedule | undefined;
  #stopPump: (() => void) | undefined;

  constructor(parts: AuditionParts) {
    this.#parts = parts;
    this.#nowMs = parts.nowMs ?? (() => performance.now());
  }

  /** The key of what is heard now; undefined in silence. */
  get key(): string | undefined {
    return this.#key;
  }
  /** Why there is no sound, if so. */
  get problem(): string | undefined {
    return this.#problem;
  }

  /** Integer microseconds from bar 1 beat 1 of what is heard; undefined in silence. */
  nowUs(): number | undefined {
    if (this.#key === undefined) return undefined;
    return Math.round((this.#nowMs() - this.#originMs) * 1000);
  }

  /** Starts from the beginning, its pickup included, or from a bar. Call it from a gesture, since browsers keep quiet without one. */
  async play(key: string, heard: Heard | HeardStrokes): Promise<void> {
    this.stop();
    this.#key = key;
    this.#wanted = heard;
    const { engine, pump = startPump } = this.#parts;
    const { name, sentence } = await engine.start();
    this.#problem = name === 'running' ? undefined : sentence;
    if (this.#key !== key || this.#stopPump) return;
    if (name !== 'running') {
      this.#key = undefined;
      return;
    }
    const { startUs } = this.#lay(this.#wanted, 0);
    this.#originMs = this.#nowMs() + BEFORE_MS - startUs / 1000;
    this.#sounds = createSoundSchedule({
      clockMap: this.#parts.clockMap,
      engine,
      originPerformanceMs: this.#originMs,
      fromUs: startUs,
      events: (fromUs, toUs) => this.#laid!.sounds(fromUs, toUs),
    });
    this.#stopPump = pump(() => this.#tick());
    this.#tick();
  }

  /** What is heard becomes something else without a break, if it is heard under this key. */
  change(key: string, heard: Heard | HeardStrokes): void {
    if (this.#key !== key) return;
    this.#wanted = heard;
    if (!this.#sounds) return;
    const nowUs = this.nowUs()!;
    this.#lay(heard, Math.max(0, nowUs));
    this.#sounds.cancelFrom(nowUs);
    this.#sounds.fill();
  }

  stop(): void {
    this.#stopPump?.();
    this.#sounds?.stop();
    this.#stopPump = this.#sounds = this.#laid = this.#wanted = undefined;
    this.#key = undefined;
  }

  #lay(heard: Heard | HeardStrokes, fromUs: number): Laid {
    const { engine } = this.#parts;
    const laid =
      'strokes' in heard ? layStrokes(heard, engine) : layPhrase(heard, fromUs + AHEAD_US, engine);
    this.#laid = laid;
    return laid;
  }

  #tick(): void {
    const reading = this.#parts.engine.observe();
    if (reading) this.#parts.clockMap.observe(reading);
    const nowUs = this.nowUs()!;
    if (this.#laid && nowUs > this.#laid.endUs) {
      this.stop();
      return;
    }
    this.#laid?.extendTo(Math.max(0, nowUs) + AHEAD_US);
    this.#sounds?.fill();
  }
}

/** Where a phrase begins to be heard, integer microseconds from bar 1 beat 1. */
function startOf(
  { notes, plan }: Pick<LiveTimeline, 'notes' | 'plan'>,
  { phrase, fromBar }: Pick<Heard, 'phrase' | 'fromBar'>,
): number {
  if (fromBar === undefined) return Math.min(0, notes[0]?.timeUs ?? 0);
  return plan.tempo.usAt(beats((fromBar - 1) * phrase.meter.beatsPerBar));
}

function layPhrase(heard: Heard, untilUs: number, engine: Pick<AudioEngine, 'prepare'>): Laid {
  const { phrase, layer = phrase.layers.length, bpm = phrase.tempoBpm, click } = heard;
  const timeline = plainTimeline(phrase, layer, bpm);
  timeline.extendTo(untilUs);
  engine.prepare(timeline.notes.map(({ note }) => note.voice));
  const clicks = click ? BEATS : NO_CLICK;
  return {
    startUs: startOf(timeline, heard),
    endUs: Infinity,
    extendTo: (until) => timeline.extendTo(until),
    sounds: (fromUs, toUs) => soundsBetween(timeline, clicks, 'along', fromUs, toUs),
  };
}

function layStrokes({ strokes }: HeardStrokes, engine: Pick<AudioEngine, 'prepare'>): Laid {
  const startUs = strokes[0]?.timeUs ?? 0;
  engine.prepare(strokes.map(({ voice }) => voice));
  return {
    startUs,
    endUs: (strokes.at(-1)?.timeUs ?? startUs) + RINGS_US,
    extendTo: () => undefined,
    sounds: (fromUs, toUs) =>
      between(strokes, ({ timeUs }) => timeUs, fromUs, toUs).map(
        ({ timeUs, voice, velocity }): SoundEvent => ({ kind: 'voice', timeUs, voice, velocity }),
      ),
  };
}
