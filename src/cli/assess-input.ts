import { kitFor } from '../kit/built-in-kits';
import type { Kit } from '../kit/kit';
import type { Plan } from '../match/plan';
import type { WindowSettings } from '../match/hit-window';
import type { Phrase } from '../phrase/model/phrase';
import { assess } from '../score/assess';
import type { Judgement } from '../score/judge';
import type { MidiFile } from '../take/midi-file';
import { readStrokes, type KitStrokes } from '../kit/read-strokes';
import { takeOfMidiFile } from '../take/take-of-midi-file';
import { tempoMap } from '../time/tempo';
import { InputError } from './input-error';
import { isNoteOn } from '../kit/raw-message';

export interface AssessRequest {
  /** Its name, for messages. */
  readonly takePath: string;
  readonly file: MidiFile;
  readonly phrase: Phrase;
  readonly layer: number;
  readonly countInBars: number;
  readonly tempoBpm: number | undefined;
  readonly windows: WindowSettings;
  readonly kit: Kit | undefined;
}

export interface Assessed {
  readonly plan: Plan;
  readonly kit: Kit;
  readonly strokes: KitStrokes;
  readonly judgement: Judgement;
}

/**
 * A MIDI file judged against a phrase's layer. Without a kit the file's notes choose one: the
 * edge-and-rim layout where notes occur that only it has, else General MIDI percussion.
 *
 * @throws InputError when the file tells no tempo and none was given.
 */
export function assessFile(request: AssessRequest): Assessed {
  const { takePath, file, phrase, layer, countInBars, tempoBpm, windows } = request;
  const taken = takeOfMidiFile(file, { meter: phrase.meter, countInBars, tempoBpm });
  if (!taken.ok) throw new InputError(`${takePath}: ${taken.errors[0]!.message}`);
  const { messages, tempos } = taken.value;
  const kit = request.kit ?? kitFor(struckNotes(file));
  const strokes = readStrokes(messages, kit);
  const plan: Plan = {
    phrase,
    passages: [{ fromBar: 1, layer }],
    tempo: tempoMap(tempos),
    windows,
  };
  const counted = strokes.strokes.filter((_, j) => strokes.setAside[j] === 0);
  return { plan, kit, strokes, judgement: assess(plan, counted, kit) };
}

const struckNotes = (file: MidiFile): number[] =>
  file.messages
    .filter((message) => isNoteOn(message.status, message.data2))
    .map((message) => message.data1);
