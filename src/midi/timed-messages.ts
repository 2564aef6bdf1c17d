import type { StrokeSink } from './stroke-source';

/** The clock and the timer that a source in real time needs; the browser's own unless told. */
export interface Timers {
  nowMs(): number;
  /** Calls back once after so many milliseconds; the returned function calls it off. */
  after(delayMs: number, call: () => void): () => void;
}

export const browserTimers: Timers = {
  nowMs: () => performance.now(),
  after(delayMs, call) {
    const timer = setTimeout(call, delayMs);
    return () => clearTimeout(timer);
  },
};

/** Messages that are sent when their time comes, stamped with the time they were meant for. */
export interface TimedMessages {
  /** Times in milliseconds on the performance clock, in any order. */
  add(timeMs: number, status: number, data1: number, data2: number): void;
  clear(): void;
  readonly waiting: number;
}

interface TimedMessage {
  readonly timeMs: number;
  readonly status: number;
  readonly data1: number;
  readonly data2: number;
}

/** Each timer runs up to the next message's own time, so that delays never add up. */
export function createTimedMessages(
  timers: Timers,
  send: StrokeSink,
  onEmpty: () => void = () => undefined,
): TimedMessages {
  /** Latest first: the next one is taken off the end. */
  const queue: TimedMessage[] = [];
  let callOff: (() => void) | undefined;
  let armedForMs = Infinity;

  function arm(): void {
    const next = queue.at(-1);
    if (!next || next.timeMs === armedForMs) return;
    callOff?.();
    armedForMs = next.timeMs;
    callOff = timers.after(Math.max(0, next.timeMs - timers.nowMs()), sendDue);
  }

  function sendDue(): void {
    armedForMs = Infinity;
    callOff = undefined;
    const now = timers.nowMs();
    while (queue.length > 0 && queue.at(-1)!.timeMs <= now) {
      const { timeMs, status, data1, data2 } = queue.pop()!;
      send(timeMs, status, data1, data2);
    }
    if (queue.length === 0) onEmpty();
    else arm();
  }

  return {
    add(timeMs, status, data1, data2) {
      let at = queue.length;
      while (at > 0 && queue[at - 1]!.timeMs <= timeMs) at--;
      queue.splice(at, 0, { timeMs, status, data1, data2 });
      arm();
    },
    clear() {
      queue.length = 0;
      callOff?.();
      callOff = undefined;
      armedForMs = Infinity;
    },
    get waiting() {
      return queue.length;
    },
  };
}
