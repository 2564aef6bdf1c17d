import { parseMidi } from 'midi-file';
import JZZ from 'jzz';
import smf from 'jzz-midi-smf';

/** What a file holds at a tick, in one form for every reader: "note 38 112", "tempo 500000", "lyric R". */
export interface ReadEvent {
  readonly tick: number;
  readonly words: string;
}

/** What a reader that is not ours finds in a file. */
export interface ReadFile {
  readonly format: number;
  readonly ticksPerQuarter: number;
  readonly tracks: readonly (readonly ReadEvent[])[];
}

/** Their letters are bytes. */
const text = (letters: string): string => Buffer.from(letters, 'latin1').toString('utf8');

/** midi-file 1.2.4. */
export function byMidiFile(bytes: Uint8Array): ReadFile {
  const { header, tracks } = parseMidi(bytes);
  return {
    format: header.format,
    ticksPerQuarter: header.ticksPerBeat!,
    tracks: tracks.map((events) => {
      let tick = 0;
      return events.map((event) => {
        tick += event.deltaTime;
        return { tick, words: wordsOf(event) };
      });
    }),
  };
}

function wordsOf(event: ReturnType<typeof parseMidi>['tracks'][number][number]): string {
  switch (event.type) {
    case 'noteOn':
      return `on ${event.channel + 1} ${event.noteNumber} ${event.velocity}`;
    case 'noteOff':
      return `off ${event.channel + 1} ${event.noteNumber} ${event.velocity}`;
    case 'noteAftertouch':
      return `pressure ${event.channel + 1} ${event.noteNumber} ${event.amount}`;
    case 'controller':
      return `controller ${event.channel + 1} ${event.controllerType} ${event.value}`;
    case 'setTempo':
      return `tempo ${event.microsecondsPerBeat}`;
    case 'timeSignature':
      return `meter ${event.numerator}/${event.denominator} ${event.metronome} ${event.thirtyseconds}`;
    case 'trackName':
      return `name ${text(event.text)}`;
    case 'lyrics':
      return `lyric ${text(event.text)}`;
    case 'marker':
      return `marker ${text(event.text)}`;
    case 'text':
      return `text ${text(event.text)}`;
    case 'endOfTrack':
      return 'end';
    default:
      return event.type;
  }
}

interface JzzEvent extends ReadonlyArray<number> {
  /** Tick. */
  readonly tt: number;
  /** Type of a meta event. */
  readonly ff?: number;
  /** Its data, a letter a byte. */
  readonly dd?: string;
}
type JzzFile = readonly (readonly JzzEvent[])[] & { readonly type: number; readonly ppqn: number };

smf(JZZ);
const JzzSmf = (JZZ.MIDI as unknown as { readonly SMF: new (letters: string) => JzzFile }).SMF;
const TEXTS: Readonly<Record<number, string>> = { 1: 'text', 3: 'name', 5: 'lyric', 6: 'marker' };
const STATUSES: Readonly<Record<number, string>> = {
  8: 'off',
  9: 'on',
  10: 'pressure',
  11: 'controller',
};

/** jzz-midi-smf 1.9.9. */
export function byJzz(bytes: Uint8Array): ReadFile {
  const file = new JzzSmf(Buffer.from(bytes).toString('latin1'));
  return {
    format: file.type,
    ticksPerQuarter: file.ppqn,
    tracks: Array.from(file, (events) =>
      Array.from(events, (event) => ({ tick: event.tt, words: wordsOfJzz(event) })),
    ),
  };
}

function wordsOfJzz({ ff, dd = '', ...event }: JzzEvent): string {
  const [status = 0, data1 = 0, data2 = 0] = Object.values(event) as number[];
  if (ff === undefined) return `${STATUSES[status >> 4]} ${(status & 15) + 1} ${data1} ${data2}`;
  const data = Array.from(dd, (letter) => letter.charCodeAt(0));
  const kind = TEXTS[ff];
  if (kind !== undefined) return `${kind} ${text(dd)}`;
  if (ff === 0x51) return `tempo ${data.reduce((sum, byte) => sum * 256 + byte, 0)}`;
  if (ff === 0x58) return `meter ${data[0]}/${2 ** data[1]!} ${data[2]} ${data[3]}`;
  return ff === 0x2f ? 'end' : `meta ${ff}`;
}

/** Both, each under its name. */
export const OTHER_READERS = [
  ['midi-file', byMidiFile],
  ['jzz-midi-smf', byJzz],
] as const;
