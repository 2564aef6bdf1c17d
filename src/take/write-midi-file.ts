import { writeMidi, type MidiEvent } from 'midi-file';
import type { Meter } from '../time/meter';
import type { TempoChange } from '../time/tempo';
import { tickTimes } from './midi-ticks';
import type { MidiTempo } from './midi-file';
import type { Player } from './player';
import type { RawMessage } from '../kit/raw-message';

export interface MidiFileContent {
  /** From bar 1 beat 1; what lies before the count-in is left out. */
  readonly messages: readonly RawMessage[];
  /** In beats of the meter from bar 1 beat 1; the first holds for the count-in too. */
  readonly tempos: readonly TempoChange[];
  readonly meter: Meter;
  readonly countInBars: number;
  readonly title?: string;
  /** Who played, as a text event. */
  readonly player?: Player | undefined;
}

/** Ticks a quarter: 5040 = lcm(5, 7, 9, 16) is whole for every tuplet up to 10, and finer. */
const COARSE = 960;
const FINE = 5040;

/**
 * A Standard MIDI File (RP-001) of format 0 whose tick 0 is the first beat of the count-in. 960 ticks
 * a quarter where every time is then told exactly, else 5040; a time that falls between two ticks
 * is told by the nearer one.
 *
 * @example writeMidiFile({ messages: [], tempos: [{ fromBeat: beats(0), bpm: 120 }], meter: parseMeter('4/4'), countInBars: 0 }).length // => 41
 */
export function writeMidiFile(content: MidiFileContent): Uint8Array {
  const coarse = layOut(content, COARSE);
  const { events, ticksPerQuarter } = coarse.exact ? coarse : layOut(content, FINE);
  return Uint8Array.from(
    writeMidi({
      header: { format: 0, numTracks: 1, ticksPerBeat: ticksPerQuarter },
      tracks: [withDeltas(events)],
    }),
  );
}

type Placed = readonly [tick: number, event: MidiEvent];

function layOut(
  { messages, tempos, meter, countInBars, title, player }: MidiFileContent,
  ticksPerQuarter: number,
): { events: Placed[]; exact: boolean; ticksPerQuarter: number } {
  const quartersPerBeat = meter.quartersPerBeat.valueOf();
  const tickOf = (beat: number) =>
    (beat + countInBars * meter.beatsPerBar) * quartersPerBeat * ticksPerQuarter;
  const places = tempos.map(({ fromBeat }, i) => (i === 0 ? 0 : tickOf(fromBeat.valueOf())));
  const map: MidiTempo[] = tempos.map(({ bpm }, i) => ({
    tick: Math.round(places[i]!),
    usPerQuarter: Math.round(60e6 / (bpm * quartersPerBeat)),
  }));
  let exact = places.every(Number.isInteger);
  const timeOf = tickTimes({ kind: 'musical', ticksPerQuarter }, map);
  const startUs = timeOf(tickOf(0));

  const events: Placed[] = [
    ...(title === undefined ? [] : [[0, trackName(title)] as const]),
    ...(player === undefined ? [] : [[0, text(`Played by: ${player}`)] as const]),
    [0, timeSignature(meter)],
    ...map.map(({ tick, usPerQuarter }): Placed => [
      tick,
      { deltaTime: 0, type: 'setTempo', microsecondsPerBeat: usPerQuarter },
    ]),
  ];
  for (const message of messages) {
    const us = message.timeUs + startUs;
    if (us < 0) continue;
    const tick = nearestTick(us, map, timeOf, ticksPerQuarter);
    exact &&= timeOf(tick) === us;
    events.push([tick, eventOf(message)]);
  }
  events.sort(([a], [b]) => a - b);
  return { events, exact, ticksPerQuarter };
}

function nearestTick(
  us: number,
  map: readonly MidiTempo[],
  timeOf: (tick: number) => number,
  ticksPerQuarter: number,
): number {
  const from = map.findLast(({ tick }) => timeOf(tick) <= us) ?? map[0]!;
  return from.tick + Math.round(((us - timeOf(from.tick)) * ticksPerQuarter) / from.usPerQuarter);
}

function withDeltas(events: readonly Placed[]): MidiEvent[] {
  let before = 0;
  const track = events.map(([tick, event]) => {
    const deltaTime = tick - before;
    before = tick;
    return { ...event, deltaTime };
  });
  return [...track, { deltaTime: 0, type: 'endOfTrack' }];
}

const trackName = (title: string): MidiEvent => ({ deltaTime: 0, type: 'trackName', text: title });
const text = (words: string): MidiEvent => ({ deltaTime: 0, type: 'text', text: words });

/** The click of the file's own metronome falls on the beat: 24 clocks a quarter. */
const timeSignature = ({ count, unit, quartersPerBeat }: Meter): MidiEvent => ({
  deltaTime: 0,
  type: 'timeSignature',
  numerator: count,
  denominator: unit,
  metronome: quartersPerBeat.mul(24).valueOf(),
  thirtyseconds: 8,
});

function eventOf({ status, data1, data2 }: RawMessage): MidiEvent {
  const one = { deltaTime: 0, channel: status & 15 };
  switch (status & 0xf0) {
    case 0x80:
      return { ...one, type: 'noteOff', noteNumber: data1, velocity: data2 };
    case 0x90:
      return { ...one, type: 'noteOn', noteNumber: data1, velocity: data2 };
    case 0xa0:
      return { ...one, type: 'noteAftertouch', noteNumber: data1, amount: data2 };
    case 0xb0:
      return { ...one, type: 'controller', controllerType: data1, value: data2 };
    case 0xc0:
      return { ...one, type: 'programChange', programNumber: data1 };
    case 0xd0:
      return { ...one, type: 'channelAftertouch', amount: data1 };
    case 0xe0:
      return { ...one, type: 'pitchBend', value: data1 + data2 * 128 - 0x2000 };
    default:
      throw new RangeError(`not a channel message: status ${status}`);
  }
}
