import type { ClockMap } from '../../clock/audio-clock-map';
import { tapEstimate, type TapEstimate } from '../../clock/latency/tap-estimate';
import type { AudioEngine } from '../../sound/audio-engine';
import type { Inputs } from '../inputs/inputs.svelte';
import { CLICKS, LatencyRun } from './latency-run';
import type { Rigs } from './rigs.svelte';
import type { TransportDependencies } from '../transport';
import { StartAttempts } from '../start-attempts';

export type PlayedPhase = 'idle' | 'starting' | 'playing' | 'done';

/** What a rig's offset is measured with. */
export interface MeasuringDependencies extends TransportDependencies {
  readonly engine: AudioEngine;
  readonly clockMap: ClockMap;
  readonly inputs: Pick<Inputs, 'tap' | 'follow' | 'choosePlayer'>;
  readonly rigs: Pick<Rigs, 'look' | 'remember' | 'refresh'>;
}

/** A guided minute: clicks, the player strikes one pad along with them, and an estimate comes of it. */
export class PlayedCalibration {
  readonly #dependencies: MeasuringDependencies;
  #phase: PlayedPhase = $state('idle');
  #clicked = $state(0);
  #strokes = $state(0);
  #pad: number | undefined = $state();
  #estimate: TapEstimate | undefined = $state.raw();
  #problem: string | undefined = $state();
  #run: LatencyRun | undefined;
  readonly #attempts = new StartAttempts('The measurement', (sentence) => {
    this.stop();
    this.#problem = sentence;
  });

  constructor(dependencies: MeasuringDependencies) {
    this.#dependencies = dependencies;
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
    await this.#attempts.begin((isCurrent) => this.#start(isCurrent));
  }

  async #start(isCurrent: () => boolean): Promise<void> {
    const { engine, inputs } = this.#dependencies;
    // Only the kit is measured.
    inputs.choosePlayer('kit');
    const { name, sentence } = await engine.start();
    if (!isCurrent()) return;
    this.#problem = name === 'running' ? undefined : sentence;
    if (name !== 'running') {
      this.#phase = 'idle';
      return;
    }
    this.#phase = 'playing';
    const run: LatencyRun = new LatencyRun(this.#dependencies, () => this.#tick(run));
    this.#run = run;
    run.start();
  }

  /** Works out what was played so far. */
  finish(): void {
    const run = this.#run;
    if (!run) return;
    this.#end();
    this.#estimate = tapEstimate(run.offsetsMs, run.beatMs);
    this.#phase = 'done';
    if (this.#estimate.outcome === 'estimated') this.#dependencies.rigs.remember(this.#estimate);
  }

  /** Leaves off, and forgets what was played. */
  stop(): void {
    this.#attempts.giveUp();
    this.#end();
    this.#estimate = undefined;
    this.#phase = 'idle';
  }

  #tick(run: LatencyRun): void {
    this.#clicked = run.clicked;
    this.#strokes = run.offsetsMs.length;
    this.#pad = run.pad;
    if (run.isOver) this.finish();
  }

  #end(): void {
    this.#run?.stop();
    this.#run = undefined;
  }
}
