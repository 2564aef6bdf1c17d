import type { RawMessage } from './raw-message';

/**
 * A take's messages with the rig's part taken off their times, and those that gave a command told apart: as they are
 * judged. `commands` are places in `messages`, from 0.
 *
 * @example alignedMessages({ deviceOffsetMs: 2, messages: [{ timeUs: 5000, status: 153, data1: 38, data2: 90 }] }) // => [{ timeUs: 3000, status: 153, data1: 38, data2: 90 }]
 */
export function alignedMessages({
  messages,
  deviceOffsetMs,
  commands = [],
}: {
  readonly messages: readonly RawMessage[];
  readonly deviceOffsetMs: number;
  readonly commands?: readonly number[] | undefined;
}): readonly RawMessage[] {
  if (deviceOffsetMs === 0 && commands.length === 0) return messages;
  const offsetUs = Math.round(deviceOffsetMs * 1000);
  const aligned = messages.map((message) => ({ ...message, timeUs: message.timeUs - offsetUs }));
  for (const at of commands) {
    const message = aligned[at];
    if (message) aligned[at] = { ...message, isCommand: true };
  }
  return aligned;
}
