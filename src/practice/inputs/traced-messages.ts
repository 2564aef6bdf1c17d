import { LANE_SET_ASIDE } from '../../live/lane-feed';
import { VOICES, type Voice } from '../../phrase/model/voice';
import type { MessageTrace } from './message-trace';

/** One message of the trace, for reading. */
export interface TracedMessage {
  /** From 0 on, in order of arrival. */
  readonly number: number;
  /** Its own time, milliseconds on the performance clock. */
  readonly stampMs: number;
  /** From the message before by their own times, ms; undefined for the first. */
  readonly sinceMs: number | undefined;
  /** From its own time until the page handled it, ms. */
  readonly delayMs: number;
  readonly bytes: readonly [status: number, data1: number, data2: number];
  /** What was struck; undefined when it was no stroke of the kit. */
  readonly voice: Voice | undefined;
  /** 0 closed to 1 open; undefined before the hi-hat's controller has spoken. */
  readonly openness: number | undefined;
  readonly setAside: (typeof LANE_SET_ASIDE)[number];
}

/** The last `most` messages, oldest first. */
export function tracedMessages(trace: MessageTrace, most = Infinity): TracedMessage[] {
  const from = Math.max(trace.first, trace.count - most);
  return Array.from({ length: trace.count - from }, (_, i) => {
    const number = from + i;
    const at = trace.place(number);
    const stampMs = trace.stampMs[at]!;
    const openness = trace.openness[at]!;
    return {
      number,
      stampMs,
      sinceMs: number > trace.first ? stampMs - trace.stampMs[trace.place(number - 1)]! : undefined,
      delayMs: trace.handledMs[at]! - stampMs,
      bytes: [trace.status[at]!, trace.data1[at]!, trace.data2[at]!],
      voice: VOICES[trace.voice[at]!],
      openness: openness < 0 ? undefined : openness,
      setAside: LANE_SET_ASIDE[trace.setAside[at]!]!,
    };
  });
}
