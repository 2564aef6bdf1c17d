import { capture, type CaptureOptions } from '../capture/capture';
import { kitFor } from '../kit/built-in-kits';
import type { Stroke } from '../kit/stroke';
import type { MidiFile } from '../take/midi-file';
import { strokesOfTake } from '../take/strokes-of-take';
import { takeOfMidiFile } from '../take/take-of-midi-file';
import { parseMeter } from '../time/meter';
import { InputError } from './input-error';

export interface CaptureRequest {
  /** Its name, for messages. */
  readonly takePath: string;
  readonly file: MidiFile;
  readonly tempoBpm: number | undefined;
  readonly countInBars: number | undefined;
}

export interface Heard extends CaptureOptions {
  /** From bar 1 beat 1 where there was a click. */
  readonly strokes: readonly Stroke[];
}

/** Tempi that a click may have while another pulse is felt. */
const RELATED = [1, 2, 1 / 2, 3, 1 / 3, 3 / 2, 2 / 3, 4 / 3, 3 / 4];
const CLOSE = 0.01;

/**
 * The strokes of a file and the click they were played to. With a tempo or a count-in there was one. Else
 * the file's own single tempo is believed where the pulse of the strokes is the same or simply related:
 * many recorders write a tempo that nobody heard.
 *
 * @throws InputError when a count-in was given, but no tempo, and the file tells none.
 */
export function heardIn({ takePath, file, tempoBpm, countInBars }: CaptureRequest): Heard {
  const written = file.meters[0];
  const text = written ? `${written.count}/${written.unit}` : '4/4';
  const meter = parseMeter(text) ?? parseMeter('4/4')!;
  const meterText = `${meter.count}/${meter.unit}`;
  const options = { meter, countInBars: countInBars ?? 0, tempoBpm };
  const taken = takeOfMidiFile(file, options);
  const free = takeOfMidiFile(file, { ...options, tempoBpm: tempoBpm ?? 120 });
  if (!free.ok) throw new InputError(`${takePath}: ${free.errors[0]!.message}`);
  if (!taken.ok && countInBars !== undefined)
    throw new InputError(`${takePath}: ${taken.errors[0]!.message}`);
  const { messages, tempos } = taken.ok ? taken.value : { ...free.value, tempos: [] };
  const kit = kitFor(
    messages.filter(({ status, data2 }) => status >> 4 === 9 && data2 > 0).map((m) => m.data1),
  );
  const read = strokesOfTake(messages, kit);
  const strokes = read.strokes.filter((_, i) => read.setAside[i] === 0);
  const clickBpm = tempos[0]?.bpm;
  if (tempoBpm !== undefined || countInBars !== undefined)
    return { strokes, clickBpm, meter: meterText };
  const stated = file.tempos.length > 0 && tempos.length === 1 ? clickBpm : undefined;
  const found = stated === undefined ? undefined : capture(strokes, { meter: meterText });
  const foundBpm = found?.ok ? found.value.pattern.tempoBpm : undefined;
  const believed =
    stated !== undefined &&
    foundBpm !== undefined &&
    RELATED.some((ratio) => Math.abs(foundBpm / (stated * ratio) - 1) < CLOSE);
  return { strokes, clickBpm: believed ? stated : undefined, meter: meterText };
}
