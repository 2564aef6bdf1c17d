import type { RawMessage } from '../kit/raw-message';

/** Raw messages as columns of a record. */
export interface MessageColumns {
  /** Integer microseconds: a Float64 holds them exactly, 32 bits end after 35 minutes. */
  readonly timeUs: Float64Array;
  readonly status: Uint8Array;
  readonly data1: Uint8Array;
  readonly data2: Uint8Array;
}

export const packMessages = (messages: readonly RawMessage[]): MessageColumns => ({
  timeUs: Float64Array.from(messages, ({ timeUs }) => timeUs),
  status: Uint8Array.from(messages, ({ status }) => status),
  data1: Uint8Array.from(messages, ({ data1 }) => data1),
  data2: Uint8Array.from(messages, ({ data2 }) => data2),
});

export const unpackMessages = ({ timeUs, status, data1, data2 }: MessageColumns): RawMessage[] =>
  Array.from(timeUs, (time, i) => ({
    timeUs: time,
    status: status[i]!,
    data1: data1[i]!,
    data2: data2[i]!,
  }));
