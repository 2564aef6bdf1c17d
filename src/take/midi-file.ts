/** What one tick of a file's clock means. */
export type MidiDivision =
  | { readonly kind: 'musical'; readonly ticksPerQuarter: number }
  /** Ticks of real time; 29 frames per second stands for 30 000 / 1001, as the standard says. */
  | { readonly kind: 'frames'; readonly framesPerSecond: number; readonly ticksPerFrame: number };

export interface MidiTempo {
  readonly tick: number;
  /** Integer microseconds per quarter note. */
  readonly usPerQuarter: number;
}

export interface MidiMeter {
  readonly tick: number;
  readonly count: number;
  /** 1, 2, 4, 8, ... */
  readonly unit: number;
}

/** A channel message: its data bytes are checked, the second is 0 where a message has only one. */
export interface MidiMessage {
  readonly tick: number;
  /** Integer microseconds from tick 0, rounded once. */
  readonly timeUs: number;
  readonly status: number;
  readonly data1: number;
  readonly data2: number;
  /** What is sung to a note: the lyric ahead of it in its track, at its tick. */
  readonly lyric?: string;
}

/** A text at its place. */
export interface MidiText {
  readonly tick: number;
  readonly kind: 'text' | 'marker';
  /** UTF-8, or Latin-1 where it is not that; not empty. */
  readonly text: string;
}

/** A Standard MIDI File of format 0 or 1, its tracks merged. */
export interface MidiFile {
  readonly division: MidiDivision;
  /** In time order, from every track; empty means 120 quarters a minute. */
  readonly tempos: readonly MidiTempo[];
  readonly meters: readonly MidiMeter[];
  /** In time order; messages of one tick keep the order of the file. */
  readonly messages: readonly MidiMessage[];
  /** In time order, without names of tracks and lyrics. */
  readonly texts: readonly MidiText[];
  /** How far the longest track reaches. */
  readonly endTick: number;
  /** Names of the tracks that have one. */
  readonly names: readonly string[];
}

export interface MidiFileError {
  readonly code:
    | 'NOT_MIDI'
    | 'TOO_LARGE'
    | 'TOO_MANY_TRACKS'
    | 'TOO_MANY_EVENTS'
    | 'TOO_LONG'
    | 'FORMAT'
    | 'DIVISION'
    | 'CUT_OFF'
    | 'NUMBER'
    | 'NO_STATUS'
    | 'STATUS'
    | 'DATA'
    | 'TEMPO'
    | 'METER';
  /** Byte offset in the file. */
  readonly at: number;
  /** 1-based. */
  readonly track?: number;
  readonly message: string;
}
