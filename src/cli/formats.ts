import { basename, extname } from 'node:path';
import {
  type MusicFile,
  type MusicPart,
  type MusicXmlError,
  type MusicXmlReading,
  type Phrase,
  phraseAsMusic,
  phraseInFile,
  readMusicXml,
  readMxl,
  type Result,
  writePhrase,
} from '../index';
import { InputError } from './input-error';
import { inputName, faultLine, readBytes, readMidi, readPhrase, readText } from './read-input';

/** A phrase from a file, and what is to be said of it, in sentences. */
export interface ReadPhrase {
  readonly phrase: Phrase;
  readonly sentences: readonly string[];
}

/** A form of file that phrases are kept in, told by the end of its name. */
export interface PhraseFormat {
  readonly ending: string;
  /** Whether a file may hold several layers in turn, one of which is read. */
  readonly namesLayers: boolean;
  /** Whether it is written bar by bar, for as many as are asked for and for some of the layers. */
  readonly isOfBars: boolean;
  /** @throws InputError naming the file, the place and what was expected. */
  readonly read: (path: string, layer: number | undefined) => ReadPhrase;
  readonly write: (phrase: Phrase, part: MusicPart) => MusicFile;
}

/** Every form that `convert` knows: another one is another line. */
const FORMATS: readonly PhraseFormat[] = [
  {
    ending: '.json',
    namesLayers: false,
    isOfBars: false,
    read: (path) => ({ phrase: readPhrase(path), sentences: [] }),
    write: (phrase) => ({ content: writePhrase(phrase), sentences: [] }),
  },
  {
    ending: '.mid',
    namesLayers: true,
    isOfBars: true,
    read: readMidiPhrase,
    write: (phrase, part) => phraseAsMusic(phrase, 'mid', part),
  },
  {
    ending: '.musicxml',
    namesLayers: false,
    isOfBars: true,
    read: (path) => musicXmlPhrase(path, readMusicXml(readText(path))),
    write: (phrase, part) => phraseAsMusic(phrase, 'musicxml', part),
  },
  {
    ending: '.mxl',
    namesLayers: false,
    isOfBars: true,
    read: (path) => musicXmlPhrase(path, readMxl(readBytes(path))),
    write: (phrase, part) => phraseAsMusic(phrase, 'mxl', part),
  },
  {
    ending: '.mei',
    namesLayers: false,
    isOfBars: true,
    read: (path) => {
      throw new InputError(
        `command line: ${inputName(path)}: MEI is written and not read; expected .json, .mid, .musicxml or .mxl.`,
      );
    },
    write: writeOneMei,
  },
];

/** The form that a file's name ends in. @throws InputError when it is none of them. */
export function formatOf(path: string): PhraseFormat {
  const format = FORMATS.find(({ ending }) => path.toLowerCase().endsWith(ending));
  if (format) return format;
  const endings = FORMATS.map(({ ending }) => ending).join(', ');
  throw new InputError(
    `command line: ${inputName(path)}: expected a name that ends in one of ${endings}.`,
  );
}

function readMidiPhrase(path: string, layer: number | undefined): ReadPhrase {
  const title = basename(path, extname(path));
  const found = phraseInFile(readMidi(path), { layer, title });
  if (!found.ok) throw new InputError(`${path}: ${found.errors[0]!.message}`);
  const { phrase, remarks } = found.value;
  return { phrase, sentences: remarks.map(({ sentence }) => sentence) };
}

function musicXmlPhrase(path: string, read: Result<MusicXmlReading, MusicXmlError>): ReadPhrase {
  if (!read.ok) throw new InputError(faultLine(path, read.errors[0]!));
  const { phrase, unread } = read.value;
  return { phrase, sentences: unread.map(({ sentence }) => sentence) };
}

function writeOneMei(phrase: Phrase, part: MusicPart): MusicFile {
  if ((part.layers ?? []).length <= 1) return phraseAsMusic(phrase, 'mei', part);
  throw new InputError('command line: --layer: an .mei file has one layer; name it by its number.');
}
