import { voiceNumber } from '../phrase/model/voice';
import type { Kit } from './kit';
import { padGroups } from './pad-groups';

/** What a message turned out to be: the codes that `KitReader.read` returns. */
export const IGNORED = 0;
export const STROKE = 1;
export const OPENING = 2;
export const CHOKE = 3;
export const UNMAPPED = 4;

/**
 * Reads raw channel messages, one at a time and without allocating. After `STROKE` the fields hold
 * the stroke; after `OPENING`, `openness`; after `UNMAPPED`, `pad` and `velocity`; after `CHOKE`, `pad`.
 */
export interface KitReader {
  read(status: number, data1: number, data2: number): number;
  /** Forgets the opening and the unmapped notes: a new take begins. */
  reset(): void;
  /** Index into VOICES. */
  readonly voiceNumber: number;
  /** 1 to 127. */
  readonly velocity: number;
  /** MIDI note number. */
  readonly pad: number;
  /** Index into the names of `padGroups`. */
  readonly group: number;
  /** 0 closed to 1 open; -1 until the controller has spoken. */
  readonly openness: number;
  /** How often each note number came without a pad to it. */
  readonly unmapped: Uint32Array;
}

const NOTE_ON = 0x90;
const POLY_PRESSURE = 0xa0;
const CONTROL_CHANGE = 0xb0;

/**
 * A reader for one kit. Any channel counts. Note-off, velocity 0 (a note-off in disguise), system
 * messages, channel pressure, program change and pitch bend are ignored; poly pressure is a cymbal
 * being choked by hand and never a stroke. Until the hi-hat's controller has spoken, a pad that
 * follows the opening has its own voice.
 *
 * @example createKitReader(GENERAL_MIDI).read(0x99, 38, 64) // => 1
 */
export function createKitReader(kit: Kit): KitReader {
  const open = voiceNumber('hi-hat open');
  const closed = voiceNumber('hi-hat closed');
  const { ofNote } = padGroups(kit);
  const voices = new Int16Array(128).fill(-1);
  const follows = new Uint8Array(128);
  for (const pad of kit.pads) {
    voices[pad.note] = voiceNumber(pad.voice);
    follows[pad.note] = pad.followsOpening === true ? 1 : 0;
  }
  const { controller, highMeans, openFrom } = kit.opening;

  const reader = {
    voiceNumber: 0,
    velocity: 0,
    pad: 0,
    group: 0,
    openness: -1,
    unmapped: new Uint32Array(128),
    reset() {
      reader.openness = -1;
      reader.unmapped.fill(0);
    },
    read(status: number, data1: number, data2: number): number {
      if (status < 0x80 || status >= 0xf0 || data1 > 127 || data2 > 127) return IGNORED;
      const kind = status & 0xf0;
      if (kind === NOTE_ON) return data2 === 0 ? IGNORED : strike(data1, data2);
      if (kind === CONTROL_CHANGE && data1 === controller) {
        const share = data2 / 127;
        reader.openness = highMeans === 'open' ? share : 1 - share;
        return OPENING;
      }
      if (kind !== POLY_PRESSURE) return IGNORED;
      reader.pad = data1;
      return CHOKE;
    },
  };

  function strike(note: number, velocity: number): number {
    reader.pad = note;
    reader.velocity = velocity;
    const voice = voices[note]!;
    if (voice < 0) {
      reader.unmapped[note]!++;
      return UNMAPPED;
    }
    reader.group = ofNote[note]!;
    reader.voiceNumber =
      follows[note] === 1 && reader.openness >= 0
        ? reader.openness >= openFrom
          ? open
          : closed
        : voice;
    return STROKE;
  }

  return reader;
}
