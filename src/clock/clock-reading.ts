/** Both clocks, read together once. The audio API tells seconds, the page milliseconds. */
export interface ClockReading {
  /** `performance.now()` at the moment of reading, ms. */
  readonly nowMs: number;
  /** `currentTime` at the moment of reading: the next block to be rendered, seconds. */
  readonly currentSeconds: number;
  /** `getOutputTimestamp().performanceTime`, ms, 0 where the browser gives none. */
  readonly performanceMs: number;
  /** `getOutputTimestamp().contextTime`, seconds: what leaves the output at `performanceMs`. */
  readonly contextSeconds: number;
  /** Seconds, 0 where the browser gives none. */
  readonly outputLatency: number;
  /** Seconds, 0 where the browser gives none. */
  readonly baseLatency: number;
}

/** What a reading needs of an audio context; older browsers lack parts of it. */
export interface ReadableContext {
  readonly currentTime: number;
  readonly baseLatency?: number;
  readonly outputLatency?: number;
  getOutputTimestamp?(): AudioTimestamp;
}

/** Reads both clocks. Nothing is judged here: zeros and nonsense are for the clock map to sort out. */
export function readClocks(
  context: ReadableContext,
  nowMs = (): number => performance.now(),
): ClockReading {
  const stamp = context.getOutputTimestamp?.();
  return {
    nowMs: nowMs(),
    currentSeconds: context.currentTime,
    performanceMs: stamp?.performanceTime ?? 0,
    contextSeconds: stamp?.contextTime ?? 0,
    outputLatency: context.outputLatency ?? 0,
    baseLatency: context.baseLatency ?? 0,
  };
}
