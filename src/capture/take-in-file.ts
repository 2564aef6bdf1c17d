import { kitFor } from '../kit/built-in-kits';
import type { Kit } from '../kit/kit';
import type { MidiFile } from '../take/midi-file';
import { readStrokes } from '../kit/read-strokes';
import { struckNotes, type RawMessage } from '../kit/raw-message';
import { takeOfMidiFile, type MidiTakeError } from '../take/take-of-midi-file';
import { parseMeter } from '../time/meter';
import { bad, good, type Result } from '../time/result';
import { placeInBeats } from './place-in-beats';
import { RELATED_TEMPI, type CaptureInput } from './place-in-bars';
import { inStepWith } from './in-step';
import type { PlayedStroke } from './played-stroke';

export interface FileOptions {
  /** There was a click at this tempo, in beats of the meter. */
  readonly tempoBpm?: number | undefined;
  /** There was a click, with so many bars ahead of bar 1. */
  readonly countInBars?: number | undefined;
}

/** What was played in a file, and to which click, if to one: then times are from bar 1 beat 1. */
export interface FileTake extends CaptureInput {
  readonly messages: readonly RawMessage[];
  readonly kit: Kit;
}

const CLOSE = 0.01;
const USUAL_METER = '4/4';

/**
 * The strokes of a file and the click they were played to. With a tempo or a count-in there was one. Else
 * the file's own single tempo is believed where the strokes keep in step with it, or their pulse is the
 * same or simply related: many recorders write a tempo that nobody heard. The meter is the file's first.
 * Error: a count-in was given, but no tempo, and the file tells none.
 *
 * @example takeInFile(readMidiFile(writeMidiFile({ messages: [{ timeUs: 500000, status: 0x99, data1: 38, data2: 64 }], tempos: [{ fromBeat: beats(0), bpm: 120 }], meter: parseMeter('4/4'), countInBars: 0 })).value).value.strokes // => [{ timeUs: 500000, voice: 'snare', velocity: 64, pad: 38 }]
 */
export function takeInFile(
  file: MidiFile,
  { tempoBpm, countInBars }: FileOptions = {},
): Result<FileTake, MidiTakeError> {
  const written = file.meters[0];
  const text = written ? `${written.count}/${written.unit}` : USUAL_METER;
  const meter = parseMeter(text) ?? parseMeter(USUAL_METER)!;
  const options = { meter, countInBars: countInBars ?? 0, tempoBpm };
  const taken = takeOfMidiFile(file, options);
  if (!taken.ok && countInBars !== undefined) return taken;
  const anyTempo = takeOfMidiFile(file, { ...options, tempoBpm: tempoBpm ?? 120 });
  if (!anyTempo.ok) return bad(...anyTempo.errors);
  const { messages, tempos } = taken.ok ? taken.value : { ...anyTempo.value, tempos: [] };
  const kit = kitFor(struckNotes(messages));
  const { strokes, setAside } = readStrokes(messages, kit);
  const counted = strokes.filter((_, i) => setAside[i] === 0);
  const meterText = `${meter.count}/${meter.unit}`;
  const take = { messages, kit, strokes: counted, meter: meterText };
  const stated = tempos[0]?.bpm;
  if (tempoBpm !== undefined || countInBars !== undefined)
    return good({ ...take, clickBpm: stated, bar1At: 'count-in end' });
  const isSingle = file.tempos.length > 0 && tempos.length === 1 && stated !== undefined;
  const clickBpm = isSingle && isBelieved(counted, stated) ? stated : undefined;
  return good({ ...take, clickBpm, bar1At: 'file start' });
}

function isBelieved(strokes: readonly PlayedStroke[], statedBpm: number): boolean {
  if (inStepWith(strokes, statedBpm)) return true;
  const tempoBpm = placeInBeats(strokes)?.tempoBpm;
  return (
    tempoBpm !== undefined &&
    RELATED_TEMPI.some((ratio) => Math.abs(tempoBpm / (statedBpm * ratio) - 1) < CLOSE)
  );
}
