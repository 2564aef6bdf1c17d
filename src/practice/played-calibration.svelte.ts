import type { ClockMap } from '../clock/audio-clock-map';
import { tapEstimate, type DeviceAndHabit, type TapEstimate } from '../clock/latency/tap-estimate';
import { startPump } from '../clock/pump';
import type { StrokeSink } from '../midi/stroke-source';
import type { AudioEngine } from '../sound/audio-engine';
import { CLICKS, LatencyRun } from './latency-run';

export type PlayedPhase = 'idle' | 'starting' | 'playing' | 'done';

export interface MeasuringParts {
  readonly engine: AudioEngine;
  readonly clockMap: ClockMap;
  /** Lets raw messages of the kit through to a listener until the returned function is called. */
  readonly overhear: (listener: StrokeSink) => () => void;
  /** Only the kit is measured. */
  readonly playOnKit: () => void;
  /** Told about ten times a second while something is measured. */
  readonly onTick?: () => void;
  /** Told what a playing has found, once it has found something. */
  readonly onFound?: (found: DeviceAndHabit) => void;
  readonly nowMs?: () => number;
  readonly pump?: typeof startPump;
}

/** A guided minute: clicks, the player strikes one pad along with them, and an estimate comes of it. */
export class PlayedCalibration {
  readonly #parts: MeasuringParts;
  readonly #nowMs: () => number;
  #phase: PlayedPhase = $state('idle');
  #clicked = $state(0);
  #strokes = $state(0);
  #pad: number | undefined = $state();
  #estimate: TapEstimate | undefined = $state.raw();
  #problem: string | undefined = $state();
  #run: LatencyRun | undefined;
  #letGo: (() => void)[] = [];

  constructor(parts: MeasuringParts) {
    this.#parts = parts;
    this.#nowMs = parts.nowMs ?? (() => performance.now());
  }

  get phase(): PlayedPhase {
    return this.#phase;
  }
  /** Clicks of `clicks` that were due so far. */
  get clicked(): number {
    return this.#clicked;
  }
  readonly clicks = CLICKS;
  get strokes(): number {
    return this.#strokes;
  }
  /** MIDI note of the pad played on. */
  get pad(): number | undefined {
    return this.#pad;
  }
  get estimate(): TapEstimate | undefined {
    return this.#estimate;
  }
  /** Why there is no sound, if so. */
  get problem(): string | undefined {
    return this.#problem;
  }

  /** Call it from a click, since browsers keep quiet without one. */
  async begin(): Promise<void> {
    if (this.#phase === 'starting' || this.#phase === 'playing') return;
    this.#phase = 'starting';
    this.#estimate = undefined;
    this.#pad = undefined;
    this.#clicked = this.#strokes = 0;
    const { engine, clockMap, playOnKit, overhear, pump = startPump } = this.#parts;
    playOnKit();
    const { name, sentence } = await engine.start();
    this.#problem = name === 'running' ? undefined : sentence;
    if (this.#phaseNow() !== 'starting') return;
    if (name !== 'running') {
      this.#phase = 'idle';
      return;
    }
    this.#observe();
    const run = new LatencyRun({ engine, clockMap, nowMs: this.#nowMs });
    this.#run = run;
    this.#phase = 'playing';
    this.#letGo = [
      overhear((...message) => run.receive(...message)),
      pump(() => this.#tick(run)),
      () => run.stop(),
    ];
  }

  /** Works out what was played so far. */
  finish(): void {
    const run = this.#run;
    if (!run) return;
    this.#end();
    this.#estimate = tapEstimate(run.offsetsMs, run.beatMs);
    this.#phase = 'done';
    if (this.#estimate.outcome === 'estimated') this.#parts.onFound?.(this.#estimate);
  }

  /** Leaves off, and forgets what was played. */
  stop(): void {
    this.#end();
    this.#estimate = undefined;
    this.#phase = 'idle';
  }

  #tick(run: LatencyRun): void {
    this.#observe();
    this.#parts.onTick?.();
    run.tick();
    this.#clicked = run.clicked;
    this.#strokes = run.offsetsMs.length;
    this.#pad = run.pad;
    if (run.isOver) this.finish();
  }

  #observe(): void {
    const reading = this.#parts.engine.observe();
    if (reading) this.#parts.clockMap.observe(reading);
  }

  /** As it is after something was awaited. */
  #phaseNow(): PlayedPhase {
    return this.#phase;
  }

  #end(): void {
    for (const letGo of this.#letGo) letGo();
    this.#letGo = [];
    this.#run = undefined;
  }
}
