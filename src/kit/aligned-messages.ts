import type { RawMessage } from './raw-message';

/**
 * A take's messages with the rig's part taken off their times: as they are judged.
 *
 * @example alignedMessages({ deviceOffsetMs: 2, messages: [{ timeUs: 5000, status: 153, data1: 38, data2: 90 }] }) // => [{ timeUs: 3000, status: 153, data1: 38, data2: 90 }]
 */
export function alignedMessages({
  messages,
  deviceOffsetMs,
}: {
  readonly messages: readonly RawMessage[];
  readonly deviceOffsetMs: number;
}): readonly RawMessage[] {
  if (deviceOffsetMs === 0) return messages;
  const offsetUs = Math.round(deviceOffsetMs * 1000);
  return messages.map((message) => ({ ...message, timeUs: message.timeUs - offsetUs }));
}
