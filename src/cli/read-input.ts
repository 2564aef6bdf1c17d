import { isUtf8 } from 'node:buffer';
import { readFileSync } from 'node:fs';
import {
  type Kit,
  type MidiFile,
  parseKit,
  parsePhrase,
  parseTake,
  type Phrase,
  readMidiFile,
  type Take,
} from '../index';
import { InputError } from './input-error';

/** The file name that means standard input. */
export const STANDARD_INPUT = '-';
const LINE_FEED = 10;
const JSON_BEGINS = /^\s*\{/;

/** How messages call an input. @example inputName('-') // => 'standard input' */
export const inputName = (path: string): string =>
  path === STANDARD_INPUT ? 'standard input' : path;

/** A phrase file, checked. @throws InputError naming the file, the place and what was expected. */
export function readPhrase(path: string): Phrase {
  const parsed = parsePhrase(readText(path));
  if (parsed.ok) return parsed.value;
  throw new InputError(faultLine(path, parsed.errors[0]!));
}

/** A kit file, checked. @throws InputError likewise. */
export function readKit(path: string): Kit {
  const parsed = parseKit(readText(path));
  if (parsed.ok) return parsed.value;
  throw new InputError(faultLine(path, parsed.errors[0]!));
}

/** A Standard MIDI File, checked. @throws InputError likewise. */
export const readMidi = (path: string): MidiFile => midiOf(path, readBytes(path));

/** What was played, as a MIDI file or as the app saves a take. */
export type Recording = { readonly midi: MidiFile } | { readonly take: Take };

/** @throws InputError likewise. */
export function readRecording(path: string): Recording {
  const bytes = readBytes(path);
  if (!JSON_BEGINS.test(bytes.toString('latin1', 0, 64))) return { midi: midiOf(path, bytes) };
  const parsed = parseTake(textOf(path, bytes));
  if (parsed.ok) return { take: parsed.value };
  throw new InputError(faultLine(path, parsed.errors[0]!));
}

function midiOf(path: string, bytes: Buffer): MidiFile {
  const parsed = readMidiFile(bytes);
  if (parsed.ok) return parsed.value;
  throw new InputError(`${inputName(path)}: ${parsed.errors[0]!.message}`);
}

/** A fault of an input in a line: the file, the place in it, and what is the matter. */
export const faultLine = (
  path: string,
  { place, message }: { readonly place: string; readonly message: string },
): string => [inputName(path), place, message].filter((part) => part !== '').join(': ');

/** A file of text in UTF-8. @throws InputError likewise. */
export const readText = (path: string): string => textOf(path, readBytes(path));

function textOf(path: string, bytes: Buffer): string {
  if (!isUtf8(bytes))
    throw new InputError(`${inputName(path)}: line ${firstOddLine(bytes)}: expected UTF-8 text.`);
  return bytes.toString('utf8');
}

/** The first line that is not UTF-8, 1 first: no character of several bytes holds a line feed. */
function firstOddLine(bytes: Buffer): number {
  let line = 1;
  let from = 0;
  let to = bytes.indexOf(LINE_FEED);
  while (to >= 0 && isUtf8(bytes.subarray(from, to))) {
    line++;
    from = to + 1;
    to = bytes.indexOf(LINE_FEED, from);
  }
  return line;
}

/** A file, whatever is in it. @throws InputError naming the file and why. */
export function readBytes(path: string): Buffer {
  try {
    return readFileSync(path === STANDARD_INPUT ? 0 : path);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    const why =
      code === 'ENOENT'
        ? 'there is no such file'
        : code === 'EISDIR'
          ? 'this is a folder, expected a file'
          : `the file cannot be read (${code})`;
    throw new InputError(`${inputName(path)}: ${why}.`);
  }
}
