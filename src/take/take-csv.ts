import { alignedMessages } from '../kit/aligned-messages';
import { readStrokes } from '../kit/read-strokes';
import { csvText } from './csv';
import type { Take } from './take';

const WHY = ['', 'double trigger', 'crosstalk', 'command'] as const;

/**
 * The strokes of a take as comma-separated values (RFC 4180), one row a stroke in time order: time
 * in milliseconds from bar 1 beat 1, voice, velocity, MIDI note number, why it was set aside, who played.
 *
 * @example takeCsv({ messages: [{ timeUs: 5000, status: 0x99, data1: 38, data2: 64 }], kit: GENERAL_MIDI, deviceOffsetMs: 0, player: 'kit' }).split('\r\n')[1] // => '5.000,snare,64,38,,kit'
 */
export function takeCsv(
  take: Pick<Take, 'messages' | 'commands' | 'kit' | 'deviceOffsetMs' | 'player'>,
): string {
  const { strokes, setAside } = readStrokes(alignedMessages(take), take.kit);
  const rows = strokes.map(({ timeUs, voice, velocity, pad }, i) => [
    (timeUs / 1000).toFixed(3),
    ...[voice, velocity, pad, WHY[setAside[i]!], take.player],
  ]);
  return csvText([HEAD, ...rows]);
}

const HEAD = ['time_ms', 'voice', 'velocity', 'note', 'set_aside', 'player'];
