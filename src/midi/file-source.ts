import type { Kit } from '../kit/kit';
import type { RawMessage } from '../kit/raw-message';
import type { SourceState, StrokeSink, StrokeSource } from './stroke-source';
import { createSubscribers } from './subscribers';
import { browserTimers, createTimedMessages, type Timers } from './timed-messages';

export interface FileSource extends StrokeSource {
  /** Plays from where bar 1 beat 1 falls on `originMs`, milliseconds on the performance clock. */
  playFrom(originMs: number): void;
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
    (...message) => sink?.(...message),
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
    playFrom(originMs) {
      queue.clear();
      for (const { timeUs, status, data1, data2 } of messages)
        queue.add(originMs + timeUs / 1000, status, data1, data2);
      become(queue.waiting > 0 ? STATES.playing : STATES.ended);
    },
  };
}
