import type { ClockMap, ClockQuality } from '../clock/audio-clock-map';
import { outputLabel } from '../clock/output-label';
import type { ClockResidual } from '../clock/residual-ring';
import type { AudioEngine } from '../sound/audio-engine';

/** The sound and the clocks at one moment. */
export interface SoundLook {
  readonly sound: {
    readonly state: string;
    /** In words, with what to do. */
    readonly sentence: string;
    /** As the browser reports them, ms; undefined while nothing runs or where it reports none. */
    readonly outputLatencyMs: number | undefined;
    readonly baseLatencyMs: number | undefined;
  };
  readonly clocks: ClockQuality;
  readonly residuals: readonly ClockResidual[];
}

export interface SoundWatchDependencies {
  readonly engine: Pick<AudioEngine, 'state' | 'start' | 'observe'>;
  readonly clockMap: Pick<ClockMap, 'observe' | 'quality' | 'residuals'>;
  /** The browser's list of devices; undefined where it has none. */
  readonly devices?: Pick<MediaDevices, 'enumerateDevices'> | undefined;
}

/** Looks at the sound and the clocks while no take does. */
export class SoundWatch {
  readonly #dependencies: SoundWatchDependencies;

  constructor(dependencies: SoundWatchDependencies) {
    this.#dependencies = dependencies;
  }

  /** Reads both clocks and tells how things are; a few times a second. */
  look(): SoundLook {
    const { engine, clockMap } = this.#dependencies;
    const reading = engine.observe();
    if (reading) clockMap.observe(reading);
    const { name, sentence } = engine.state;
    return {
      sound: {
        state: name,
        sentence,
        outputLatencyMs: inMs(reading?.outputLatency),
        baseLatencyMs: inMs(reading?.baseLatency),
      },
      clocks: clockMap.quality,
      residuals: clockMap.residuals(),
    };
  }

  /** Starts the sound, so that there are clocks to look at; call it from a click. */
  async startSound(): Promise<void> {
    await this.#dependencies.engine.start();
  }

  /** The name of the sound output, as far as the browser tells; browsers do not without leave to listen. */
  async outputName(): Promise<string | undefined> {
    return (await outputLabel(this.#dependencies.devices ?? null)) || undefined;
  }
}

const inMs = (seconds: number | undefined): number | undefined =>
  seconds ? seconds * 1000 : undefined;
