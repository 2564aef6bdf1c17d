/** Chosen, not measured: sounds are queued a second and more ahead, so ten ticks may fail in a row. */
const TICK_MS = 100;

setInterval(() => postMessage('tick'), TICK_MS);

export {};
