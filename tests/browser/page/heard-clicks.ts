import type { Page } from 'playwright-core';

export interface HeardClicks {
  /** Sounds queued so far, without those that were taken off before their time. */
  readonly queued: number;
  /** How many of them were: on a starved machine the output falls behind, and what is queued is placed anew. */
  readonly takenOff: number;
  /** Performance time, ms, at which sound `k` is heard, by the browser's own output stamps of late. */
  heardMs(k: number): number;
  /** The same as audio time, seconds. */
  atSeconds(k: number): number;
}

declare global {
  interface Window {
    heardClicks: HeardClicks;
  }
}

/**
 * Listens at the browser's own doors, not the app's: which buffers are started for which audio time,
 * and what the output stamps say when that is. Uses nothing outside itself, to be put into a page.
 */
function createHeardClicks(): HeardClicks {
  /** Looks back so far, ms: long against the stamps' noise, short against the clocks' drift. */
  const WINDOW_MS = 4000;
  /** A starved output falls behind by blocks of 10 ms, all at once: the last few stamps tell where it is. */
  const LATEST = 7;
  const SAME_BLOCK_MS = 5;
  const sounds: { when: number; through: AudioNode | undefined }[] = [];
  const pairs: { atMs: number; offsetMs: number }[] = [];
  let takenOff = 0;
  let context: AudioContext | undefined;
  const through = new Map<AudioNode, AudioNode>();
  const { connect, disconnect } = AudioNode.prototype as {
    connect: (this: AudioNode, ...to: unknown[]) => unknown;
    disconnect: (this: AudioNode, ...from: unknown[]) => void;
  };
  const { start } = AudioBufferSourceNode.prototype;
  AudioNode.prototype.connect = function (this: AudioNode, ...to: unknown[]) {
    if (this instanceof AudioBufferSourceNode) through.set(this, to[0] as AudioNode);
    return connect.apply(this, to);
  } as AudioNode['connect'];
  AudioBufferSourceNode.prototype.start = function (this: AudioBufferSourceNode, when = 0) {
    context = this.context as AudioContext;
    sounds.push({ when, through: through.get(this) });
    start.call(this, when);
  };
  // A sound taken off before its time is placed anew, because the map has moved: it is not counted twice.
  AudioNode.prototype.disconnect = function (this: AudioNode, ...from: unknown[]) {
    const at = sounds.findLastIndex((sound) => sound.through === this);
    if (at >= 0 && sounds[at]!.when > this.context.currentTime) {
      sounds.splice(at, 1);
      takenOff++;
    }
    disconnect.apply(this, from);
  };
  setInterval(() => {
    const stamp = context?.getOutputTimestamp();
    if (stamp?.contextTime && stamp.performanceTime)
      pairs.push({
        atMs: performance.now(),
        offsetMs: stamp.performanceTime - stamp.contextTime * 1000,
      });
  }, 25);
  const middle = (values: readonly number[]) =>
    values.toSorted((a, b) => a - b)[values.length >> 1]!;
  const offsetMs = () => {
    const since = performance.now() - WINDOW_MS;
    const late = pairs.filter(({ atMs }) => atMs > since).map((pair) => pair.offsetMs);
    const now = middle(late.slice(-LATEST));
    return middle(late.filter((offset) => Math.abs(offset - now) < SAME_BLOCK_MS));
  };
  return {
    get queued() {
      return sounds.length;
    },
    get takenOff() {
      return takenOff;
    },
    atSeconds: (k) => sounds[k]!.when,
    heardMs: (k) => sounds[k]!.when * 1000 + offsetMs(),
  };
}

/** Text to run in a page before its own scripts: puts it at `window.heardClicks`. */
export const heardClicksScript = (): string =>
  `window.heardClicks = (${createHeardClicks.toString()})();`;

/**
 * Strikes a pad of the virtual port once for each sound from number `first` on, so many ms after it is
 * heard, each stroke stamped with that very time. Ends with the last.
 */
export const playToClicks = (
  page: Page,
  first: number,
  afterMs: readonly number[],
  note = 38,
): Promise<void> =>
  page.evaluate(
    async ({ first, afterMs, note }) => {
      const until = (ms: number) =>
        new Promise((resolve) => setTimeout(resolve, ms - performance.now()));
      for (const [i, after] of afterMs.entries()) {
        const k = first + i;
        while (window.heardClicks.queued <= k) await until(performance.now() + 20);
        const dueMs = () => window.heardClicks.heardMs(k) + after;
        // Looked at again while it comes nearer: until it is heard its place may move, and the output fall behind.
        while (dueMs() > performance.now()) await until(Math.min(dueMs(), performance.now() + 20));
        const atMs = dueMs();
        window.fakeMidi.emit('kit', [0x99, note, 80], atMs);
        window.fakeMidi.emit('kit', [0x99, note, 0], atMs + 20);
      }
    },
    { first, afterMs, note },
  );
