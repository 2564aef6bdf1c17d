import { isStruck } from '../../kit/kit-decoder';
import { MICROPHONE_PROBLEMS } from '../../sound/microphone/microphone-problems';
import {
  recordMicrophone,
  type MicrophoneRecording,
} from '../../sound/microphone/record-microphone';
import type { SoundQueue } from '../../sound/sound-output';
import type { MicrophoneVerdict, MicrophoneEvidence } from './microphone-analysis';
import type { MeasuringDependencies } from './played-calibration.svelte';
import { LEAD_IN_MS, Transport } from '../transport';
import { StartAttempts } from '../start-attempts';

export type MicrophonePhase = 'idle' | 'asking' | 'recording' | 'analysing' | 'done';

/** Clicks, and the time from one to the next, s: strokes fall in between. Chosen: half a minute. */
const MICROPHONE_CLICKS = 40;
const BETWEEN_SECONDS = 0.75;
/** Recorded after the last click, s: longer than any output is late. */
const AFTER_SECONDS = 1;
const SOUND = 'bar';
const FULL_VELOCITY = 127;

export interface MicrophoneDependencies extends MeasuringDependencies {
  readonly record?: typeof recordMicrophone;
  readonly analyse?: typeof analyseApart;
}

interface Run {
  readonly recording: MicrophoneRecording;
  readonly queue: SoundQueue;
  readonly atSeconds: readonly number[];
  readonly stampsMs: number[];
  readonly clocks: (readonly [number, number])[];
  readonly transport: Transport;
}

/** Clicks from the loudspeaker and strokes beside the microphone, recorded, compared and thrown away. */
export class MicrophoneCalibration {
  readonly #dependencies: MicrophoneDependencies;
  #phase: MicrophonePhase = $state('idle');
  #clicked = $state(0);
  #strokes = $state(0);
  #outcome: MicrophoneVerdict | undefined = $state.raw();
  #problem: string | undefined = $state();
  #isProcessed = $state(false);
  #run: Run | undefined;
  readonly #attempts = new StartAttempts('The measurement', (sentence) => {
    this.stop();
    this.#problem = sentence;
  });

  constructor(dependencies: MicrophoneDependencies) {
    this.#dependencies = dependencies;
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
  get outcome(): MicrophoneVerdict | undefined {
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
    await this.#attempts.begin((isCurrent) => this.#start(isCurrent));
  }

  async #start(isCurrent: () => boolean): Promise<void> {
    const { engine, inputs, rigs, record = recordMicrophone } = this.#dependencies;
    // Only the kit is measured.
    inputs.choosePlayer('kit');
    const { name, sentence } = await engine.start();
    if (!isCurrent()) return;
    if (!engine.context || name !== 'running') return this.#give(sentence);
    const recording = await record(engine.context);
    if (!isCurrent()) return void (recording.ok && recording.value.stop());
    if (!recording.ok) return this.#give(recording.errors[0]!.message);
    // The browser tells the names of devices now, too.
    void rigs.refresh();
    this.#isProcessed = recording.value.isProcessed;
    this.#record(recording.value);
  }

  /** Leaves off; what was recorded is forgotten. */
  stop(): void {
    this.#attempts.giveUp();
    this.#end();
    this.#phase = 'idle';
  }

  #record(recording: MicrophoneRecording): void {
    const { engine } = this.#dependencies;
    const firstSeconds = engine.currentSeconds + LEAD_IN_MS.microphone / 1000;
    const queue = engine.openQueue();
    const atSeconds = Array.from(
      { length: MICROPHONE_CLICKS },
      (_, k) => firstSeconds + k * BETWEEN_SECONDS,
    );
    for (const at of atSeconds)
      queue.play({ kind: 'click', timeUs: 0, sound: SOUND, velocity: FULL_VELOCITY }, at);
    const stampsMs: number[] = [];
    const transport = new Transport(this.#dependencies, {
      leadInMs: LEAD_IN_MS.microphone,
      onMessage: (_stampUs, message) => {
        if (isStruck(message)) stampsMs.push(message.timeUs / 1000);
      },
      onTick: () => this.#tick(run),
    });
    const run: Run = { recording, queue, atSeconds, stampsMs, clocks: [], transport };
    this.#run = run;
    this.#phase = 'recording';
    transport.start();
  }

  #tick(run: Run): void {
    const { engine, clockMap } = this.#dependencies;
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
    if (!recorded || run.clocks.length < 2) return this.#give(MICROPHONE_PROBLEMS.BUSY);
    const { analyse = analyseApart } = this.#dependencies;
    const { clocks, atSeconds } = run;
    const stampsMs = run.stampsMs.toSorted((a, b) => a - b);
    const evidence = { recorded, clocks, sound: SOUND, atSeconds, stampsMs } as const;
    const outcome = await analyse(evidence).catch(() => undefined);
    if (this.phase !== 'analysing') return;
    if (!outcome) return this.#give(MICROPHONE_PROBLEMS.RECORDER);
    this.#outcome = outcome;
    this.#phase = 'done';
  }

  #give(problem: string): void {
    this.#problem = problem;
    this.#phase = 'idle';
  }

  #end() {
    const run = this.#run;
    this.#run = undefined;
    if (!run) return undefined;
    run.transport.stop();
    run.queue.close();
    return run.recording.stop();
  }
}

/** Analyses a recording on a thread of its own, which ends with its answer. Rejects if that thread fails. */
async function analyseApart(evidence: MicrophoneEvidence): Promise<MicrophoneVerdict> {
  const worker = new Worker(new URL('./microphone-worker.ts', import.meta.url), { type: 'module' });
  try {
    return await new Promise<MicrophoneVerdict>((resolve, reject) => {
      worker.onmessage = ({ data }: MessageEvent<MicrophoneVerdict>) => resolve(data);
      worker.onerror = ({ message }) => reject(new Error(message));
      worker.postMessage(evidence, [evidence.recorded.samples.buffer]);
    });
  } finally {
    worker.terminate();
  }
}
