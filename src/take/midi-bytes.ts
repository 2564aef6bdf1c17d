import type { Meter } from '../time/meter';
import { utf8Bytes } from './utf8';

/** One event of a Standard MIDI File: its bytes without the time ahead of them. */
export interface MidiEvent {
  readonly tick: number;
  readonly bytes: readonly number[];
}

/** The meta events that texts are kept in, by their types. */
export const TEXT_TYPES = { text: 0x01, name: 0x03, lyric: 0x05, marker: 0x06 } as const;

/** The most that a variable-length quantity holds: four bytes of seven bits. */
const MOST_DELTA = 0x0fffffff;

/**
 * A variable-length quantity: seven bits a byte, the most significant first, bit 7 set on all but the last.
 *
 * @param value whole, 0 to 0x0FFFFFFF
 * @example variableLengthBytes(0x80) // => [0x81, 0x00]
 */
export function variableLengthBytes(value: number): number[] {
  const bytes = [value & 0x7f];
  for (let rest = value >>> 7; rest > 0; rest >>>= 7) bytes.unshift(0x80 | (rest & 0x7f));
  return bytes;
}

/** A text at a tick; UTF-8. */
export function textEvent(tick: number, kind: keyof typeof TEXT_TYPES, text: string): MidiEvent {
  const bytes = utf8Bytes(text);
  return { tick, bytes: [0xff, TEXT_TYPES[kind], ...variableLengthBytes(bytes.length), ...bytes] };
}

/** The tempo from a tick on, integer microseconds a quarter. */
export const tempoEvent = (tick: number, usPerQuarter: number): MidiEvent => ({
  tick,
  bytes: [0xff, 0x51, 3, usPerQuarter >>> 16, (usPerQuarter >>> 8) & 0xff, usPerQuarter & 0xff],
});

/** The click of a file's own metronome falls on the beat of the meter: 24 clocks a quarter. */
export const meterEvent = (tick: number, { count, unit, quartersPerBeat }: Meter): MidiEvent => ({
  tick,
  bytes: [0xff, 0x58, 4, count, Math.log2(unit), quartersPerBeat.mul(24).valueOf(), 8],
});

/**
 * A Standard MIDI File (RP-001) of format 0: one player on one channel needs one track, and every reader takes it.
 * Status bytes are written out each time: running status saves a few bytes and some readers lose it.
 *
 * @param events in any order; those of one tick keep theirs
 * @param endTick where the track ends, or at the last event where that is later
 * @throws RangeError when the ticks a quarter are not whole from 1 to 32767.
 * @example midiFileBytes(96, [], 0).length // => 26
 */
export function midiFileBytes(
  ticksPerQuarter: number,
  events: readonly MidiEvent[],
  endTick: number,
): Uint8Array {
  if (!Number.isInteger(ticksPerQuarter) || ticksPerQuarter < 1 || ticksPerQuarter > 0x7fff)
    throw new RangeError(`${ticksPerQuarter} ticks a quarter, expected 1 to 32767`);
  const track: number[] = [];
  let before = 0;
  const write = (tick: number, bytes: readonly number[]) => {
    for (; tick - before > MOST_DELTA; before += MOST_DELTA)
      track.push(...variableLengthBytes(MOST_DELTA), ...EMPTY_TEXT);
    track.push(...variableLengthBytes(tick - before), ...bytes);
    before = tick;
  };
  for (const { tick, bytes } of events.toSorted((a, b) => a.tick - b.tick)) write(tick, bytes);
  write(Math.max(before, endTick), END_OF_TRACK);
  return Uint8Array.from([
    ...[0x4d, 0x54, 0x68, 0x64, 0, 0, 0, 6, 0, 0, 0, 1],
    ...[ticksPerQuarter >>> 8, ticksPerQuarter & 0xff],
    ...[0x4d, 0x54, 0x72, 0x6b],
    ...[24, 16, 8, 0].map((shift) => (track.length >>> shift) & 0xff),
    ...track,
  ]);
}

/** Says nothing: it only breaks a time that is too long for one quantity. */
const EMPTY_TEXT = [0xff, TEXT_TYPES.text, 0];
const END_OF_TRACK = [0xff, 0x2f, 0];
