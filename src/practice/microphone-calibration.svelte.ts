import { startPump } from '../clock/pump';
import { MICROPHONE_PROBLEMS } from '../sound/microphone/microphone-problems';
import { recordMicrophone, type MicrophoneRecording } from '../sound/microphone/record-microphone';
import type { SoundQueue } from '../sound/sound-output';
import { analyseApart } from './analyse-apart';
import type { HeardOutcome } from './microphone-analysis';
import type { MeasuringParts } from './played-calibration.svelte';
import { isNoteOn } from '../kit/raw-message';

export type MicrophonePhase = 'idle' | 'asking' | 'recording' | 'analysing' | 'done';

/** Clicks, and the time from one to the next, s: strokes fall in between. Chosen: half a minute. */
export const MICROPHONE_CLICKS = 40;
const BETWEEN_SECONDS = 0.75;
/** Silence before the first click, s: the microphone and the clock map settle. Chosen, not measured. */
const BEFORE_SECONDS = 1.5;
/** Recorded after the last click, s: longer than any output is late. */
const AFTER_SECONDS = 1;
const SOUND = 'bar';
const FULL_VELOCITY = 127;

export interface MicrophoneParts extends MeasuringParts {
  readonly record?: typeof recordMicrophone;
  readonly analyse?: typeof analyseApart;
  /** Told once the browser has let the page listen: it then tells the names of devices too. */
  readonly onAllowed?: () => Promise<void>;
}

interface Run {
  readonly recording: MicrophoneRecording;
  readonly queue: SoundQueue;
  readonly atSeconds: readonly number[];
  readonly stampsMs: number[];
  readonly clocks: (readonly [number, number])[];
  readonly letGo: (() => void)[];
}

/** Clicks from the loudspeaker and strokes beside the microphone, recorded, compared and thrown away. */
export class MicrophoneCalibration {
  readonly #parts: MicrophoneParts;
  #phase: MicrophonePhase = $state('idle');
  #clicked = $state(0);
  #strokes = $state(0);
  #outcome: HeardOutcome | undefined = $state.raw();
  #problem: string | undefined = $state();
  #isProcessed = $state(false);
  #run: Run | undefined;

  constructor(parts: MicrophoneParts) {
    this.#parts = parts;
  }

  get phase(): MicrophonePhase {
    return this.#phase;
  }
  get clicked(): number {
    return this.#clicked;
  }
  readonly clicks = MICROPHONE_CLICKS;
  /** Messages of strokes so far. */
  get strokes(): number {
    return this.#strokes;
  }
  get outcome(): HeardOutcome | undefined {
    return this.#outcome;
  }
  /** Why nothing can be recorded or heard, if so. */
  get problem(): string | undefined {
    return this.#problem;
  }
  /** The browser alters the sound of the microphone and cannot be talked out of it. */
  get isProcessed(): boolean {
    return this.#isProcessed;
  }

  /** Call it from a click: the browser asks the player. */
  async begin(): Promise<void> {
    if (this.#phase !== 'idle' && this.#phase !== 'done') return;
    this.#phase = 'asking';
    this.#outcome = this.#problem = undefined;
    this.#clicked = this.#strokes = 0;
    const { engine, playOnKit, record = recordMicrophone, onAllowed } = this.#parts;
    playOnKit();
    const { name, sentence } = await engine.start();
    if (!engine.context || name !== 'running') return this.#give(sentence);
    const recording = await record(engine.context);
    if (typeof recording === 'string') return this.#give(MICROPHONE_PROBLEMS[recording]);
    if (this.#phaseNow() !== 'asking') return void recording.stop();
    void onAllowed?.();
    this.#isProcessed = recording.isProcessed;
    this.#record(recording);
  }

  /** Leaves off; what was recorded is forgotten. */
  stop(): void {
    this.#end();
    this.#phase = 'idle';
  }

  #record(recording: MicrophoneRecording): void {
    const { engine, overhear, pump = startPump } = this.#parts;
    const firstSeconds = engine.currentSeconds + BEFORE_SECONDS;
    const queue = engine.openQueue();
    const atSeconds = Array.from(
      { length: MICROPHONE_CLICKS },
      (_, k) => firstSeconds + k * BETWEEN_SECONDS,
    );
    for (const at of atSeconds)
      queue.play({ kind: 'click', timeUs: 0, sound: SOUND, velocity: FULL_VELOCITY }, at);
    const run: Run = { recording, queue, atSeconds, stampsMs: [], clocks: [], letGo: [] };
    this.#run = run;
    this.#phase = 'recording';
    run.letGo.push(
      overhear((timeMs, status, _note, velocity) => {
        if (isNoteOn(status, velocity)) run.stampsMs.push(timeMs);
      }),
      pump(() => this.#tick(run)),
    );
  }

  #tick(run: Run): void {
    const { engine, clockMap, onTick } = this.#parts;
    onTick?.();
    const reading = engine.observe();
    if (reading) clockMap.observe(reading);
    const seconds = engine.currentSeconds;
    const performanceMs = clockMap.performanceMsAt(seconds);
    if (performanceMs !== undefined && seconds > (run.clocks.at(-1)?.[0] ?? -1))
      run.clocks.push([seconds, performanceMs]);
    this.#clicked = run.atSeconds.filter((at) => at <= seconds).length;
    this.#strokes = run.stampsMs.length;
    if (seconds > run.atSeconds.at(-1)! + AFTER_SECONDS) void this.#analyse(run);
  }

  async #analyse(run: Run): Promise<void> {
    const recorded = this.#end();
    this.#phase = 'analysing';
    if (!recorded || run.clocks.length < 2) return this.#give(MICROPHONE_PROBLEMS.busy);
    const { analyse = analyseApart } = this.#parts;
    const { clocks, atSeconds } = run;
    const stampsMs = run.stampsMs.toSorted((a, b) => a - b);
    const evidence = { recorded, clocks, sound: SOUND, atSeconds, stampsMs } as const;
    const outcome = await analyse(evidence).catch(() => undefined);
    if (this.#phaseNow() !== 'analysing') return;
    if (!outcome) return this.#give(MICROPHONE_PROBLEMS.recorder);
    this.#outcome = outcome;
    this.#phase = 'done';
  }

  #give(problem: string): void {
    this.#problem = problem;
    this.#phase = 'idle';
  }

  /** As it is after something was awaited. */
  #phaseNow(): MicrophonePhase {
    return this.#phase;
  }

  #end() {
    const run = this.#run;
    this.#run = undefined;
    if (!run) return undefined;
    for (const letGo of run.letGo) letGo();
    run.queue.close();
    return run.recording.stop();
  }
}
