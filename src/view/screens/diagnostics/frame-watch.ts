import { percentiles, type Percentiles } from '../../../practice/inputs/percentiles';

/** Frames looked back on: ten seconds at 60 a second. */
const FRAMES = 600;

export interface FrameWatch {
  /** Times between frames, ms. */
  look(): Percentiles;
  stop(): void;
}

/** Measures the time from frame to frame until it is stopped. A hidden page has no frames. */
export function createFrameWatch(): FrameWatch {
  const times = new Float64Array(FRAMES);
  let count = 0;
  let last = NaN;
  let frame = requestAnimationFrame(onFrame);
  const forget = () => (last = NaN);
  document.addEventListener('visibilitychange', forget);

  function onFrame(nowMs: number): void {
    frame = requestAnimationFrame(onFrame);
    if (!Number.isNaN(last)) times[count++ % FRAMES] = nowMs - last;
    last = nowMs;
  }

  return {
    look: () => percentiles(times.slice(0, Math.min(count, FRAMES))),
    stop() {
      cancelAnimationFrame(frame);
      document.removeEventListener('visibilitychange', forget);
    },
  };
}
