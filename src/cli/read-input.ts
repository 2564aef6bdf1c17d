import { readFileSync } from 'node:fs';
import {
  type Kit,
  type MidiFile,
  parseKit,
  parsePhrase,
  type Phrase,
  readMidiFile,
} from '../index';
import { InputError } from './input-error';

/** A phrase file, checked. @throws InputError naming the file, the place and what was expected. */
export function readPhrase(path: string): Phrase {
  const parsed = parsePhrase(read(path).toString('utf8'));
  if (parsed.ok) return parsed.value;
  throw new InputError(placed(path, parsed.errors[0]!));
}

/** A kit file, checked. @throws InputError likewise. */
export function readKit(path: string): Kit {
  const parsed = parseKit(read(path).toString('utf8'));
  if (parsed.ok) return parsed.value;
  throw new InputError(placed(path, parsed.errors[0]!));
}

/** A Standard MIDI File, checked. @throws InputError likewise. */
export function readMidi(path: string): MidiFile {
  const parsed = readMidiFile(read(path));
  if (parsed.ok) return parsed.value;
  throw new InputError(`${path}: ${parsed.errors[0]!.message}`);
}

const placed = (path: string, { place, message }: { place: string; message: string }): string =>
  [path, place, message].filter((part) => part !== '').join(': ');

function read(path: string): Buffer {
  try {
    return readFileSync(path);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    const why =
      code === 'ENOENT'
        ? 'there is no such file'
        : code === 'EISDIR'
          ? 'this is a folder, expected a file'
          : `the file cannot be read (${code})`;
    throw new InputError(`${path}: ${why}.`);
  }
}
