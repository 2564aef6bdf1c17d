import {
  boundariesOf,
  type Kit,
  parseKit,
  parsePhrase,
  type Phrase,
  type Result,
  takeRow,
  type TakeRow,
  type WindowSettings,
} from '../../index';
import { assessFile, assessTake, type AssessedFile } from '../assess-input';
import { InputError } from '../input-error';
import { readRecording } from '../read-input';

/** How takes are judged, as plain data that another thread can be given. */
export interface JudgingSettings {
  /** For MIDI files; takes of the app's have their own. */
  readonly phraseText: string | undefined;
  readonly kitText: string | undefined;
  readonly layer: number | undefined;
  readonly countInBars: number | undefined;
  readonly tempoBpm: number | undefined;
  readonly windows: WindowSettings;
}

/** A take's row, or in one line why there is none. */
export type TakeAnswer = { readonly row: TakeRow } | { readonly unread: string };

/** Judges takes one by one, each by itself. @throws Error when the settings' texts are no phrase and kit. */
export function takeJudge({
  phraseText,
  kitText,
  ...rest
}: JudgingSettings): (path: string) => TakeAnswer {
  const phrase = phraseText === undefined ? undefined : valueOf(parsePhrase(phraseText));
  const kit = kitText === undefined ? undefined : valueOf(parseKit(kitText));
  return (path) => {
    try {
      return { row: rowOf(assessed(path, { ...rest, phrase, kit })) };
    } catch (error) {
      if (error instanceof InputError) return { unread: error.message };
      throw error;
    }
  };
}

type Judging = Omit<JudgingSettings, 'phraseText' | 'kitText'> & {
  readonly phrase: Phrase | undefined;
  readonly kit: Kit | undefined;
};

function assessed(path: string, { phrase, ...settings }: Judging): AssessedFile {
  const recording = readRecording(path);
  if ('take' in recording) return assessTake({ takeName: path, take: recording.take, ...settings });
  if (!phrase) throw new InputError(`${path}: a MIDI file is judged with --phrase.`);
  return assessFile({ takeName: path, file: recording.midi, phrase, ...settings });
}

const rowOf = ({ plan, judgement, kit, trials, slips }: AssessedFile): TakeRow =>
  takeRow(plan, judgement, (pad) => boundariesOf(kit, pad), { trials, slips });

function valueOf<T>(result: Result<T, { readonly message: string }>): T {
  if (result.ok) return result.value;
  throw new Error(result.errors[0]!.message);
}
