import type { Kit } from '../kit/kit';
import type { RawMessage } from '../kit/raw-message';
import type { PlayedTo, SourceState, StrokeSink, StrokeSource } from './stroke-source';
import { createSubscribers } from './subscribers';
import { browserTimers, createTimedMessages, type Timers } from './timed-messages';

export interface FileSource extends StrokeSource {
  /** Plays what is not past yet. */
  playTo(target: Pick<PlayedTo, 'originMs'>): void;
}

const STATES = {
  waiting: { kind: 'waiting', sentence: 'The file waits for the start.', remedy: '' },
  playing: { kind: 'playing', sentence: 'The file is playing.', remedy: '' },
  ended: { kind: 'ended', sentence: 'The file has come to its end.', remedy: 'Start it again.' },
} as const satisfies Record<string, SourceState>;

/** Recorded messages, times from bar 1 beat 1, played again in real time with their own times. */
export function createFileSource(
  name: string,
  messages: readonly RawMessage[],
  kit: Kit | undefined,
  timers: Timers = browserTimers,
): FileSource {
  const { subscribe, tell } = createSubscribers();
  let state: SourceState = STATES.waiting;
  let sink: StrokeSink | undefined;
  const become = (next: SourceState) => {
    state = next;
    tell();
  };
  const queue = createTimedMessages(
    timers,
    (timeMs, status, data1, data2) => sink?.(timeMs, status, data1, data2),
    () => become(STATES.ended),
  );

  return {
    name,
    kit,
    get state() {
      return state;
    },
    start(next) {
      sink = next;
    },
    stop() {
      queue.clear();
      sink = undefined;
      become(STATES.waiting);
    },
    subscribe,
    playTo({ originMs }) {
      queue.clear();
      const nowMs = timers.nowMs();
      for (const { timeUs, status, data1, data2 } of messages) {
        const dueMs = originMs + timeUs / 1000;
        if (dueMs >= nowMs) queue.add(dueMs, status, data1, data2);
      }
      become(queue.waiting > 0 ? STATES.playing : STATES.ended);
    },
  };
}
