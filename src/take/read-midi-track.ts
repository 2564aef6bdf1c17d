import type { ByteCursor } from './byte-cursor';
import { isNoteOn } from '../kit/raw-message';
import { TEXT_TYPES } from './midi-bytes';
import type { MidiMessage, MidiMeter, MidiTempo, MidiText } from './midi-file';
import { textOfBytes, wholeLetters } from './utf8';

export type TrackMessage = Omit<MidiMessage, 'timeUs'>;

/** What one track chunk holds, in ticks. */
export interface TrackContent {
  readonly messages: readonly TrackMessage[];
  readonly tempos: readonly MidiTempo[];
  readonly meters: readonly MidiMeter[];
  readonly texts: readonly MidiText[];
  readonly name: string | undefined;
  readonly eventCount: number;
  /** Where it ends. */
  readonly endTick: number;
}

/** Slowest and fastest tempo that is believed: 7.5 (sixteenths at 30) and 6000 quarters a minute. */
const SLOWEST_US = 8_000_000;
const FASTEST_US = 10_000;
/** Bytes of a text that are read. Chosen, not measured: the longest title of four bytes a letter. */
const MOST_TEXT = 480;

const META = { endOfTrack: 0x2f, tempo: 0x51, meter: 0x58 };
const TEXT_KINDS = new Map<number, MidiText['kind']>([
  [TEXT_TYPES.text, 'text'],
  [TEXT_TYPES.marker, 'marker'],
]);

/** Reads the events of one track chunk; the cursor spans exactly the chunk. */
export function readTrack(cursor: ByteCursor, mostEvents: number): TrackContent {
  const messages: TrackMessage[] = [];
  const tempos: MidiTempo[] = [];
  const meters: MidiMeter[] = [];
  const texts: MidiText[] = [];
  let name: string | undefined;
  let lyric: MidiLyric | undefined;
  let eventCount = 0;
  let tick = 0;
  let running = 0;

  /** False at the end of the track. */
  function meta(at: number): boolean {
    const type = cursor.byte();
    const data = cursor.take(cursor.variableLength());
    if (type === META.endOfTrack) return false;
    const kind = TEXT_KINDS.get(type);
    const text = type <= TEXT_TYPES.marker ? textOfBytes(wholeLetters(data, MOST_TEXT)).trim() : '';
    if (type === TEXT_TYPES.name) name ??= text || undefined;
    if (type === TEXT_TYPES.lyric) lyric = { tick, text };
    if (kind && text !== '') texts.push({ tick, kind, text });
    if (type === META.tempo) tempos.push({ tick, usPerQuarter: tempoOf(cursor, data, at) });
    if (type === META.meter) meters.push({ tick, ...meterOf(cursor, data, at) });
    return true;
  }

  while (cursor.left > 0) {
    if (eventCount === mostEvents)
      cursor.fail('TOO_MANY_EVENTS', 'the file has more events than are read.');
    eventCount++;
    tick += cursor.variableLength();
    const at = cursor.at;
    const first = cursor.byte();
    if (first === 0xff) {
      if (!meta(at)) break;
    } else if (first === 0xf0 || first === 0xf7) {
      cursor.take(cursor.variableLength());
    } else if (first > 0xf0) {
      cursor.fail('STATUS', `a file may not hold the message ${hex(first)}.`, at);
    } else {
      if (first >= 0x80) running = first;
      else if (running === 0)
        cursor.fail('NO_STATUS', `${hex(first)} stands where an event should begin.`, at);
      const data1 = first >= 0x80 ? dataByte(cursor) : first;
      const one = running >= 0xc0 && running < 0xe0;
      const data2 = one ? 0 : dataByte(cursor);
      messages.push({ tick, status: running, data1, data2, ...sungTo(running, data2) });
    }
  }
  return { messages, tempos, meters, texts, name, eventCount, endTick: tick };

  /** A lyric goes with one note-on. */
  function sungTo(status: number, velocity: number): Pick<TrackMessage, 'lyric'> {
    if (lyric?.tick !== tick || !isNoteOn(status, velocity)) return {};
    const { text } = lyric;
    lyric = undefined;
    return { lyric: text };
  }
}

interface MidiLyric {
  readonly tick: number;
  readonly text: string;
}

function dataByte(cursor: ByteCursor): number {
  const value = cursor.byte();
  if (value > 127)
    cursor.fail('DATA', `${hex(value)} stands where a value up to 127 should.`, cursor.at - 1);
  return value;
}

function tempoOf(cursor: ByteCursor, data: Uint8Array, at: number): number {
  const us = data.length < 3 ? 0 : data[0]! * 65536 + data[1]! * 256 + data[2]!;
  if (us < FASTEST_US || us > SLOWEST_US)
    cursor.fail(
      'TEMPO',
      `a quarter of ${us} microseconds is no tempo from 7.5 to 6000 a minute.`,
      at,
    );
  return us;
}

function meterOf(cursor: ByteCursor, data: Uint8Array, at: number): Omit<MidiMeter, 'tick'> {
  const count = data[0] ?? 0;
  const power = data[1] ?? 0;
  if (data.length < 2 || count === 0 || power > 6)
    cursor.fail('METER', 'a time signature is not one that can be written.', at);
  return { count, unit: 2 ** power };
}

const hex = (value: number): string => `0x${value.toString(16).toUpperCase().padStart(2, '0')}`;
