import PumpWorker from './pump-worker?worker&inline';

/** Same rhythm as the worker's; used while no worker ticks. */
const TICK_MS = 100;
/** A worker that has not ticked for this long does not. Chosen, not measured: ten ticks. */
const SILENT_AFTER_MS = 1000;

/**
 * Calls `onTick` about ten times a second until the returned function is called. The beat comes from
 * a worker, since a hidden page's own timers are slowed to one a second and the click must go on; the
 * worker is part of this script, since nothing is fetched once a take begins. Where there is no worker, or it is
 * silent, the page's own timers tick.
 */
export function startPump(onTick: () => void, createWorker = () => new PumpWorker()): () => void {
  let timer: ReturnType<typeof setInterval> | undefined;
  let stopped = false;
  const tickHere = () => {
    if (!stopped) timer ??= setInterval(onTick, TICK_MS);
  };
  const silence = setTimeout(tickHere, SILENT_AFTER_MS);
  let worker: Worker | undefined;
  try {
    worker = createWorker();
    worker.onmessage = () => {
      clearTimeout(silence);
      clearInterval(timer);
      timer = undefined;
      if (!stopped) onTick();
    };
    worker.onerror = tickHere;
  } catch {
    tickHere();
  }
  return () => {
    stopped = true;
    clearTimeout(silence);
    clearInterval(timer);
    worker?.terminate();
  };
}
