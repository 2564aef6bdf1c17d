import { heardInFile, type FileOptions, type HeardInFile } from '../capture/heard-in-file';
import type { MidiFile } from '../take/midi-file';
import { InputError } from './input-error';

export interface CaptureRequest extends FileOptions {
  /** Its name, for messages. */
  readonly takePath: string;
  readonly file: MidiFile;
}

/**
 * What was played in the file that the command was given.
 *
 * @throws InputError when a count-in was given, but no tempo, and the file tells none.
 */
export function heardIn({ takePath, file, ...options }: CaptureRequest): HeardInFile {
  const heard = heardInFile(file, options);
  if (!heard.ok) throw new InputError(`${takePath}: ${heard.errors[0]!.message}`);
  return heard.value;
}
