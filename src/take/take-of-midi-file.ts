import { beats, type Beats } from '../time/beats';
import type { Meter } from '../time/meter';
import { bad, good, type Result } from '../time/result';
import { tempoMap, type TempoChange } from '../time/tempo';
import type { MidiDivision, MidiFile, MidiTempo } from './midi-file';
import { tickTimes, USUAL_US_PER_QUARTER } from './midi-ticks';
import type { RawMessage } from '../kit/raw-message';

export interface MidiTakeOptions {
  readonly meter: Meter;
  /** Tick 0 is the first beat of the count-in; this many bars later is bar 1 beat 1. */
  readonly countInBars: number;
  /** Beats per minute in place of the file's own tempo. */
  readonly tempoBpm?: number | undefined;
}

export interface MidiTake {
  /** In time order, from bar 1 beat 1. */
  readonly messages: readonly RawMessage[];
  /** In beats of the meter from bar 1 beat 1. */
  readonly tempos: readonly TempoChange[];
}

export interface MidiTakeError {
  readonly code: 'TEMPO_MISSING';
  readonly place: 'tempo';
  readonly message: string;
}

/**
 * A file's messages and tempo, as a take counts time: from bar 1 beat 1.
 *
 * @example takeOfMidiFile(readMidiFile(writeMidiFile({ messages: [{ timeUs: 5000, status: 0x99, data1: 38, data2: 64 }], tempos: [{ fromBeat: beats(0), bpm: 120 }], meter: parseMeter('4/4'), countInBars: 0 })).value, { meter: parseMeter('4/4'), countInBars: 0 }).value.messages[0].data1 // => 38
 */
export function takeOfMidiFile(
  file: MidiFile,
  { meter, countInBars, tempoBpm }: MidiTakeOptions,
): Result<MidiTake, MidiTakeError> {
  const countInBeats = countInBars * meter.beatsPerBar;
  let startUs: number;
  let tempos: readonly TempoChange[];
  if (tempoBpm !== undefined) {
    startUs = Math.round((countInBeats * 60e6) / tempoBpm);
    tempos = [{ fromBeat: beats(0), bpm: tempoBpm }];
  } else {
    tempos = tempoOfMidiFile(file, meter, countInBars);
    if (tempos.length === 0)
      return bad({
        code: 'TEMPO_MISSING',
        place: 'tempo',
        message: 'The file counts in frames and tells no tempo; say which tempo it was played to.',
      });
    startUs = tempoMap(tempoOfMidiFile(file, meter, 0)).usAt(beats(countInBeats));
  }
  const messages = file.messages.map(({ timeUs, status, data1, data2 }) => ({
    timeUs: timeUs - startUs,
    status,
    data1,
    data2,
  }));
  return good({ messages, tempos });
}

/**
 * The tempo of a file in beats of the meter, bar 1 beat 1 at beat 0; changes during the count-in
 * leave only the tempo that bar 1 begins with. Empty when the file counts in frames and tells none.
 *
 * @example tempoOfMidiFile({ division: { kind: 'musical', ticksPerQuarter: 480 }, tempos: [] }, parseMeter('6/8'), 1)[0]?.bpm // => 80
 */
export function tempoOfMidiFile(
  file: Pick<MidiFile, 'division' | 'tempos'>,
  { quartersPerBeat, beatsPerBar }: Meter,
  countInBars: number,
): TempoChange[] {
  const { division, tempos } = file;
  const beatOf =
    division.kind === 'musical'
      ? ({ tick }: MidiTempo) => beats(tick, division.ticksPerQuarter).div(quartersPerBeat)
      : beatInFrames(division, quartersPerBeat);
  const bpmOf = (usPerQuarter: number) => 60e6 / (usPerQuarter * quartersPerBeat.valueOf());
  const changes: TempoChange[] =
    division.kind === 'musical' ? [{ fromBeat: beats(0), bpm: bpmOf(USUAL_US_PER_QUARTER) }] : [];
  for (const tempo of tempos) {
    const fromBeat = beatOf(tempo).sub(countInBars * beatsPerBar);
    const change = { fromBeat, bpm: bpmOf(tempo.usPerQuarter) };
    if (fromBeat.compare(0) <= 0 || changes.length === 0)
      changes[0] = { ...change, fromBeat: beats(0) };
    else changes.push(change);
  }
  return changes;
}

/** Beats from tick 0 at successive tempo events of a file in real time; the first tempo holds before it too. */
function beatInFrames(division: MidiDivision, quartersPerBeat: Beats) {
  const timeOf = tickTimes(division, []);
  let beat = beats(0);
  let us = 0;
  let usPerQuarter: number | undefined;
  return (tempo: MidiTempo): Beats => {
    const atUs = timeOf(tempo.tick);
    beat = beat.add(beats(atUs - us).div(quartersPerBeat.mul(usPerQuarter ?? tempo.usPerQuarter)));
    us = atUs;
    usPerQuarter = tempo.usPerQuarter;
    return beat;
  };
}
