import PumpWorker from './pump-worker?worker&inline';

/** Same rhythm as the worker's; used where a worker cannot be started. */
const TICK_MS = 100;

/**
 * Calls `onTick` about ten times a second until the returned function is called. The beat comes from
 * a worker, since a hidden page's own timers are slowed to one a second and the click must go on; the
 * worker is part of this script, since nothing is fetched once a take begins.
 */
export function startPump(onTick: () => void): () => void {
  let timer: ReturnType<typeof setInterval> | undefined;
  let stopped = false;
  const worker = new PumpWorker();
  worker.onmessage = () => {
    if (!stopped) onTick();
  };
  worker.onerror = () => {
    if (!stopped) timer ??= setInterval(onTick, TICK_MS);
  };
  return () => {
    stopped = true;
    worker.terminate();
    clearInterval(timer);
  };
}
