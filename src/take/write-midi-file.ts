import type { RawMessage } from '../kit/raw-message';
import type { Meter } from '../time/meter';
import { beats } from '../time/beats';
import { firstFrom } from '../time/first-from';
import type { TempoChange } from '../time/tempo';
import { meterEvent, midiFileBytes, tempoEvent, textEvent, type MidiEvent } from './midi-bytes';
import { COUNT_IN } from './midi-marks';
import { USUAL_US_PER_QUARTER } from './midi-ticks';
import type { Player } from './player';

export interface MidiFileContent {
  /** From bar 1 beat 1; what lies before the count-in is left out. */
  readonly messages: readonly RawMessage[];
  /** In beats of the meter from bar 1 beat 1; the first holds for the count-in too. Without any the file says none. */
  readonly tempos: readonly TempoChange[];
  readonly meter: Meter;
  readonly countInBars: number;
  readonly title?: string;
  /** Who played, as a text event. */
  readonly player?: Player | undefined;
  /** Markers at bar lines, bars from 1 on. */
  readonly marks?: readonly { readonly bar: number; readonly text: string }[];
}

/**
 * Ticks a quarter of a take: 6 times 5040, and near the most that a file can have. A tick is 33 µs at 60 quarters a
 * minute, a third of what a browser's clock tells apart.
 */
const TICKS_A_QUARTER = 6 * 5040;
/** Beats: what sums of fractions are off by. */
const NOTHING = 1e-9;
/** A tempo has three bytes. */
const SLOWEST_US = 0xffffff;

/**
 * A Standard MIDI File (RP-001) of format 0 whose tick 0 is the first beat of the count-in. A message stands at its
 * place in beats, to the nearest of 30240 ticks a quarter. A file's tempo is whole microseconds a quarter, so that its
 * clock is up to half a microsecond a quarter off; strokes and beats are off together, and their distance is kept to
 * half a tick and 2 µs. What gave a command to the app is left out.
 *
 * @example writeMidiFile({ messages: [], tempos: [{ fromBeat: beats(0), bpm: 120 }], meter: parseMeter('4/4'), countInBars: 0 }).length // => 41
 */
export function writeMidiFile(content: MidiFileContent): Uint8Array {
  const { messages, tempos, meter, countInBars, title, player, marks = [] } = content;
  const quartersPerBeat = meter.quartersPerBeat.valueOf();
  const countInBeats = countInBars * meter.beatsPerBar;
  const tickAt = (beat: number) =>
    Math.round((beat + countInBeats) * quartersPerBeat * TICKS_A_QUARTER);
  const events: MidiEvent[] = [
    ...(title === undefined ? [] : [textEvent(0, 'name', title)]),
    ...(player === undefined ? [] : [textEvent(0, 'text', `Played by: ${player}`)]),
    meterEvent(0, meter),
    ...tempos.map(({ fromBeat, bpm }, i) =>
      tempoEvent(
        i === 0 ? 0 : tickAt(fromBeat.valueOf()),
        Math.min(SLOWEST_US, Math.round(60e6 / (bpm * quartersPerBeat))),
      ),
    ),
    ...(countInBars > 0 ? [textEvent(0, 'marker', COUNT_IN)] : []),
    ...marks.map(({ bar, text }) =>
      textEvent(tickAt((bar - 1) * meter.beatsPerBar), 'marker', text),
    ),
  ];
  const beatAt = beatsOfTimes(
    tempos.length > 0 ? tempos : [{ fromBeat: beats(0), bpm: unsaidBpm(meter) }],
  );
  for (const { timeUs, ...message } of messages) {
    const beat = beatAt(timeUs);
    if (message.isCommand || beat < -countInBeats - NOTHING) continue;
    events.push({ tick: Math.max(0, tickAt(beat)), bytes: bytesOf(message) });
  }
  return midiFileBytes(TICKS_A_QUARTER, events, 0);
}

/** Beats a minute of a file that says no tempo: 120 quarters (RP-001). @example unsaidBpm(parseMeter('6/8')) // => 80 */
export const unsaidBpm = ({ quartersPerBeat }: Pick<Meter, 'quartersPerBeat'>): number =>
  60e6 / (USUAL_US_PER_QUARTER * quartersPerBeat.valueOf());

/** Beats from bar 1 beat 1 at a time, the first tempo holding before it. */
function beatsOfTimes(tempos: readonly TempoChange[]): (timeUs: number) => number {
  const starts: { beat: number; us: number; usPerBeat: number }[] = [];
  for (const { fromBeat, bpm } of tempos) {
    const before = starts.at(-1);
    const beat = before ? fromBeat.valueOf() : 0;
    const us = before ? before.us + (beat - before.beat) * before.usPerBeat : 0;
    starts.push({ beat, us, usPerBeat: 60e6 / bpm });
  }
  return (timeUs) => {
    const next = firstFrom(starts, ({ us }) => (us > timeUs ? 1 : 0), 1);
    const { beat, us, usPerBeat } = starts[Math.max(0, next - 1)]!;
    return beat + (timeUs - us) / usPerBeat;
  };
}

/** @throws RangeError when it is no channel message. */
function bytesOf({ status, data1, data2 }: Omit<RawMessage, 'timeUs'>): readonly number[] {
  if (status < 0x80 || status >= 0xf0)
    throw new RangeError(`not a channel message: status ${status}`);
  return status >= 0xc0 && status < 0xe0 ? [status, data1] : [status, data1, data2];
}
