import { bad, good, type Result } from '../time/result';
import { ByteCursor, MidiFileFault } from './byte-cursor';
import type {
  MidiDivision,
  MidiFile,
  MidiFileError,
  MidiMeter,
  MidiTempo,
  MidiText,
} from './midi-file';
import { tickTimes } from './midi-ticks';
import { DAY_US, MOST_MESSAGES, MOST_PASSAGES, MOST_TEMPOS } from './take-file';
import { readTrack, type TrackMessage } from './read-midi-track';

/** Chosen, not measured. */
const MOST_TRACKS = 64;
/** Whatever fits a take file fits a MIDI file too: its messages, tempos and markers, with some to spare for the rest. */
const MOST_EVENTS = MOST_MESSAGES + MOST_TEMPOS + MOST_PASSAGES + 1000;
/** An event is seven bytes at most, texts and tempos aside (RP-001). */
const MOST_BYTES = 2_000_000;

/**
 * Reads a Standard MIDI File (RP-001) of format 0 or 1. Damaged input gives an error, never an
 * exception and never a hang: every step of the reader moves forward inside the file. Lenient where
 * real files are: unknown chunks, a missing end of track, running status after a meta event. It reaches a day at most, as
 * a take file does.
 *
 * @example readMidiFile(new Uint8Array(3)).ok // => false
 */
export function readMidiFile(bytes: Uint8Array): Result<MidiFile, MidiFileError> {
  try {
    return good(read(bytes));
  } catch (error) {
    if (error instanceof MidiFileFault) return bad(error.fault);
    throw error;
  }
}

function read(bytes: Uint8Array): MidiFile {
  const cursor = new ByteCursor(bytes, 0, bytes.length);
  if (bytes.length > MOST_BYTES)
    cursor.fail('TOO_LARGE', `the file has ${bytes.length} bytes; at most ${MOST_BYTES} are read.`);
  const { tracks: declared, division } = readHeader(cursor);

  const tempos: MidiTempo[] = [];
  const meters: MidiMeter[] = [];
  const texts: MidiText[] = [];
  const names: string[] = [];
  let endTick = 0;
  const found: TrackMessage[] = [];
  let track = 0;
  let eventsLeft = MOST_EVENTS;
  while (cursor.left >= 8) {
    const start = cursor.at;
    const id = chunkId(cursor);
    const length = cursor.uint(4);
    if (id !== 'MTrk') {
      cursor.at = Math.min(cursor.at + length, cursor.end);
      continue;
    }
    track++;
    if (track > MOST_TRACKS)
      cursor.fail('TOO_MANY_TRACKS', `at most ${MOST_TRACKS} tracks are read.`, start);
    if (length > cursor.left) {
      const sentence = `track ${track} should have ${length} bytes but the file ends after ${cursor.left}; export the file again.`;
      cursor.fail('CUT_OFF', sentence, start);
    }
    const events = new ByteCursor(bytes, cursor.at, cursor.at + length, track);
    const content = readTrack(events, eventsLeft);
    eventsLeft -= content.eventCount;
    for (const tempo of content.tempos) tempos.push(tempo);
    for (const meter of content.meters) meters.push(meter);
    for (const text of content.texts) texts.push(text);
    endTick = Math.max(endTick, content.endTick);
    if (content.name !== undefined) names.push(content.name);
    for (const message of content.messages) found.push(message);
    cursor.at += length;
  }
  if (track < declared)
    cursor.fail(
      'CUT_OFF',
      `the header announces ${declared} tracks but ${track} are there; export the file again.`,
    );

  tempos.sort((a, b) => a.tick - b.tick);
  meters.sort((a, b) => a.tick - b.tick);
  texts.sort((a, b) => a.tick - b.tick);
  found.sort((a, b) => a.tick - b.tick);
  const timeOf = tickTimes(division, tempos);
  if (timeOf(found.at(-1)?.tick ?? 0) > DAY_US)
    cursor.fail('TOO_LONG', 'the last event is more than a day after the first tick.');
  const messages = found.map(({ tick, ...message }) => ({
    tick,
    timeUs: timeOf(tick),
    ...message,
  }));
  return { division, tempos, meters, messages, texts, endTick, names };
}

function readHeader(cursor: ByteCursor): { tracks: number; division: MidiDivision } {
  if (cursor.left < 14 || chunkId(cursor) !== 'MThd')
    cursor.fail('NOT_MIDI', 'this is not a Standard MIDI File: it should begin with "MThd".', 0);
  const length = cursor.uint(4);
  if (length < 6 || length > cursor.left)
    cursor.fail('NOT_MIDI', `the header should have 6 bytes, not ${length}.`, 4);
  const afterHeader = cursor.at + length;
  const format = cursor.uint(2);
  if (format === 2)
    cursor.fail(
      'FORMAT',
      'the file is of format 2 (independent sequences); export one of them as format 0 or 1.',
      8,
    );
  if (format > 2) cursor.fail('FORMAT', `format ${format} is unknown; 0 and 1 are read.`, 8);
  const tracks = cursor.uint(2);
  const division = divisionOf(cursor);
  cursor.at = afterHeader;
  return { tracks, division };
}

function divisionOf(cursor: ByteCursor): MidiDivision {
  const at = cursor.at;
  const high = cursor.byte();
  const low = cursor.byte();
  if (high < 0x80) {
    const ticksPerQuarter = high * 256 + low;
    if (ticksPerQuarter === 0) cursor.fail('DIVISION', 'a quarter note has 0 ticks.', at);
    return { kind: 'musical', ticksPerQuarter };
  }
  const framesPerSecond = 256 - high;
  if (![24, 25, 29, 30].includes(framesPerSecond) || low === 0) {
    const sentence = `${framesPerSecond} frames a second with ${low} ticks each is not a clock this standard knows.`;
    cursor.fail('DIVISION', sentence, at);
  }
  return { kind: 'frames', framesPerSecond, ticksPerFrame: low };
}

const chunkId = (cursor: ByteCursor): string => String.fromCharCode(...cursor.take(4));
