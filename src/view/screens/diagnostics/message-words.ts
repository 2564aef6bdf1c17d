import { isNoteOn } from '../../../kit/raw-message';
import type { TracedMessage } from '../../../practice/inputs/traced-messages';

type Bytes = readonly [status: number, data1: number, data2: number];

/**
 * A channel message as it came, in hexadecimal as manuals of sound modules write it.
 *
 * @example bytesText([0x99, 38, 90]) // => '99 26 5A'
 */
export const bytesText = (bytes: Bytes): string =>
  bytes.map((byte) => byte.toString(16).toUpperCase().padStart(2, '0')).join(' ');

/**
 * What a channel message is (MIDI 1.0 Detailed Specification, table I: note-on with velocity 0 is a
 * note-off).
 *
 * @example messageWords([0xb9, 4, 64]) // => 'controller 4 at 64'
 */
export function messageWords([status, data1, data2]: Bytes): string {
  switch (status & 0xf0) {
    case 0x80:
      return `note ${data1} off`;
    case 0x90:
      return data2 === 0 ? `note ${data1} off` : `note ${data1}, velocity ${data2}`;
    case 0xa0:
      return `pressure ${data2} on note ${data1}`;
    case 0xb0:
      return `controller ${data1} at ${data2}`;
    case 0xc0:
      return `program ${data1}`;
    case 0xd0:
      return `pressure ${data1}`;
    default:
      return `pitch bend ${data1 + 128 * data2 - 8192}`;
  }
}

/** What a note is called that no pad of the kit sends. */
export const UNMAPPED_WORDS = 'not on the note map';

/**
 * What the kit's map took a message for; nothing for what is no stroke.
 *
 * @example meaningWords({ bytes: [0x99, 38, 30], voice: 'snare', setAside: 'double trigger' }) // => 'snare, double trigger'
 */
export function meaningWords({
  bytes,
  voice,
  setAside,
}: Pick<TracedMessage, 'bytes' | 'voice' | 'setAside'>): string {
  if (setAside !== '') return `${voice}, ${setAside}`;
  return voice ?? (isNoteOn(bytes[0], bytes[2]) ? UNMAPPED_WORDS : '');
}
