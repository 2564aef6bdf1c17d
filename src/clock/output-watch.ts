/** What an audio context tells of its output. */
export interface WatchedOutput {
  /** Seconds; 0 or undefined where the browser gives none. */
  readonly outputLatency?: number;
  readonly sampleRate: number;
}

/** Tells when audio devices come and go: `navigator.mediaDevices`, where the browser has it. */
export type DeviceEvents = Pick<MediaDevices, 'addEventListener' | 'removeEventListener'>;

export interface OutputNotice {
  /** `changed`: an alignment measured before may not hold. `slow`: the output is too far behind to practise with. */
  readonly name: 'changed' | 'slow';
  /** For the player: what happened, why it matters, what to do. */
  readonly sentence: string;
}

export interface OutputWatch {
  /** For the pump: looks at the output, and tells what is new since the last look. */
  look(output: WatchedOutput): readonly OutputNotice[];
  stop(): void;
}

/** Chosen, not measured: twice a render block of a usual output, well under the step to another kind of device. */
const JUMP_SECONDS = 0.02;
/** Chosen, not measured: cables give 5 to 70 ms here, wireless audio 100 to 300. */
const SLOW_SECONDS = 0.08;
/** Chosen, not measured: a latency that holds for so many looks is no momentary estimate. */
const STEADY_LOOKS = 3;

const inMs = (seconds: number): string => `${Math.round(seconds * 1000)} ms`;

const changed = (reason: string): OutputNotice => ({
  name: 'changed',
  sentence: `The output device changed (${reason}). The alignment belongs to the device before: check it, or measure again.`,
});

const slow = (seconds: number): OutputNotice => ({
  name: 'slow',
  sentence: `The sound comes ${inMs(seconds)} after it is sent; more than ${inMs(SLOW_SECONDS)} looks like wireless. Wireless delay is long and changes while you play, so no alignment holds: use headphones or speakers with a cable.`,
});

/**
 * Watches for another output. No event tells of one in every browser, so the context itself is
 * looked at: a lasting step of its output latency, another sample rate; and devices coming or going
 * where that is told. A latency of 0 is unknown, which is usual right after the start.
 *
 * @param devices null where the browser has none.
 */
export function createOutputWatch(
  devices: DeviceEvents | null = navigator.mediaDevices ?? null,
): OutputWatch {
  let latency: number | undefined;
  let sampleRate: number | undefined;
  let stepLooks = 0;
  let deviceEvent = false;
  const onDevices = () => void (deviceEvent = true);
  devices?.addEventListener('devicechange', onDevices);

  const latencyChange = (now: number): OutputNotice[] => {
    if (now === 0) return [];
    const before = latency;
    if (before === undefined) {
      latency = now;
      return now > SLOW_SECONDS ? [slow(now)] : [];
    }
    if (Math.abs(now - before) <= JUMP_SECONDS) {
      stepLooks = 0;
      return [];
    }
    if (++stepLooks < STEADY_LOOKS) return [];
    latency = now;
    stepLooks = 0;
    const notice = changed(`its latency went from ${inMs(before)} to ${inMs(now)}`);
    return now > SLOW_SECONDS ? [notice, slow(now)] : [notice];
  };

  return {
    look(output) {
      const notices: OutputNotice[] = [];
      if (sampleRate !== undefined && output.sampleRate !== sampleRate)
        notices.push(changed(`its sample rate went from ${sampleRate} to ${output.sampleRate} Hz`));
      sampleRate = output.sampleRate;
      notices.push(...latencyChange(output.outputLatency ?? 0));
      if (deviceEvent && notices.length === 0)
        notices.push(changed('an audio device was connected or disconnected'));
      deviceEvent = false;
      return notices;
    },
    stop: () => devices?.removeEventListener('devicechange', onDevices),
  };
}
