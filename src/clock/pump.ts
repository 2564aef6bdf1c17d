/** Same rhythm as the worker's; used where a worker cannot be started. */
const TICK_MS = 100;

/**
 * Calls `onTick` about ten times a second until the returned function is called. The beat comes from
 * a worker, since a hidden page's own timers are slowed to one a second and the click must go on.
 */
export function startPump(onTick: () => void): () => void {
  let timer: ReturnType<typeof setInterval> | undefined;
  let stopped = false;
  const worker = new Worker(new URL('./pump-worker.ts', import.meta.url), { type: 'module' });
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
