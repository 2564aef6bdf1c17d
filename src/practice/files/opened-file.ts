import { fileKind, type FileKind } from '../../exchange/file-kind';
import type { Kit } from '../../kit/kit';
import { parseKit } from '../../kit/parse-kit';
import { readLink, type LinkPacking } from '../../phrase/file/phrase-link';
import { parsePhrases } from '../../phrase/file/phrase-list';
import type { Phrase } from '../../phrase/model/phrase';
import type { MidiFile } from '../../take/midi-file';
import { readMidiFile } from '../../take/read-midi-file';
import type { Take } from '../../take/take';
import { parseTake } from '../../take/take-json';
import type { TakeSummary } from '../../take/take-summary';
import { bad, good, type Result } from '../../time/result';
import { UNJUDGEABLE, type BackupInFile, type Backups } from '../keeping/backups';
import { summaryOf } from '../takes/take-scoring';
import { loadMusicReaders } from './load-music-readers';

/** What is in a file, read whole and found right. */
export type OpenedFile =
  | {
      readonly kind: 'phrases';
      readonly phrases: readonly Phrase[];
      /** What stands in the file and is in no phrase, or is only guessed, a sentence each. */
      readonly remarks?: readonly string[];
    }
  | { readonly kind: 'kit'; readonly kit: Kit }
  | { readonly kind: 'take'; readonly take: Take; readonly summary: TakeSummary }
  | MidiInFile
  | BackupInFile;

/** Notes that were written or played; which of them is not told. */
export interface MidiInFile {
  readonly kind: 'MIDI file';
  readonly file: File;
  readonly midi: MidiFile;
}

/** Why a file cannot be opened, and where in it, as far as there is a place. */
export interface FileProblem {
  readonly place?: string;
  readonly message: string;
}

export interface FileReaders {
  readonly backups: Pick<Backups, 'open'>;
  readonly packing: Pick<LinkPacking, 'inflate'>;
}

type Opened = Result<OpenedFile, FileProblem>;

/** Bytes: more than the longest take file has. A backup is not read at once and may have more. */
const MOST_BYTES = 32e6;
/** Enough to tell a backup. */
const HEAD_BYTES = 16;

const REFUSALS = {
  unreadable:
    'It cannot be read: it was moved or changed, or its disk does not answer. Choose it again.',
  empty: 'There is nothing in it. Choose another, or save it once more where it came from.',
  tooLarge: 'It has over 32 MB, more than any file that is opened here. Choose another.',
  notText: 'It is not text in UTF-8. Save it so where it was written, or choose another.',
  unknown:
    'It is nothing that can be opened here: no phrases, kit or take as JSON, no MIDI file or MusicXML, no backup, and no link to phrases. Choose another.',
  notFetched:
    'The part that reads music could not be fetched: the connection is gone, or a newer version of this page has taken its place. Try again, or reload the page.',
} as const;

const refusal = (why: keyof typeof REFUSALS): Result<never, FileProblem> =>
  bad({ message: REFUSALS[why] });

/** What a file holds, whatever its name: it is told by its content, and read by who reads such files. */
export async function openFile(file: File, readers: FileReaders): Promise<Opened> {
  let bytes: Uint8Array;
  try {
    bytes = new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer());
    if (fileKind(bytes) !== 'backup') {
      if (file.size > MOST_BYTES) return refusal('tooLarge');
      bytes = new Uint8Array(await file.arrayBuffer());
    }
  } catch {
    return refusal('unreadable');
  }
  const kind = fileKind(bytes);
  if (kind === undefined) return refusal(bytes.length === 0 ? 'empty' : 'unknown');
  return READERS[kind](file, bytes, readers);
}

type Reader = (file: File, bytes: Uint8Array, readers: FileReaders) => Opened | Promise<Opened>;

const asText =
  (read: (text: string, readers: FileReaders) => Opened | Promise<Opened>): Reader =>
  (_, bytes, readers) => {
    const text = utf8Text(bytes);
    return text === undefined ? refusal('notText') : read(text, readers);
  };

const asPhrases = (read: Result<readonly Phrase[], FileProblem>): Opened =>
  read.ok ? good({ kind: 'phrases', phrases: read.value }) : read;

/** Who reads what. */
const READERS: Readonly<Record<FileKind, Reader>> = {
  phrase: asText((text) => asPhrases(parsePhrases(text))),
  phrases: asText((text) => asPhrases(parsePhrases(text))),
  link: asText(async (text, { packing }) => asPhrases(await readLink(text, packing))),
  kit: asText((text) => {
    const kit = parseKit(text);
    return kit.ok ? good({ kind: 'kit', kit: kit.value }) : kit;
  }),
  take: asText((text) => {
    const take = parseTake(text);
    if (!take.ok) return take;
    const summary = summaryOf(take.value);
    return summary ? good({ kind: 'take', take: take.value, summary }) : bad(UNJUDGEABLE);
  }),
  'MIDI file': (file, bytes) => {
    const midi = readMidiFile(bytes);
    return midi.ok ? good({ kind: 'MIDI file', file, midi: midi.value }) : midi;
  },
  score: asText((text) =>
    withMusicReaders(({ readMusicXml }) => phraseOfScore(readMusicXml(text))),
  ),
  'compressed score': (_, bytes) =>
    withMusicReaders(({ readMxl }) => phraseOfScore(readMxl(bytes))),
  backup: (file, _, { backups }) => backups.open(file),
};

/**
 * The phrase that the notes of a MIDI file make as they stand. Taking a long one apart holds the page up, for seconds on
 * a slow machine: it is done when it is asked for.
 */
export const phraseInMidi = ({ file, midi }: MidiInFile): Promise<Opened> =>
  withMusicReaders(({ phraseInFile }) => {
    const read = phraseInFile(midi, { title: file.name.replace(/\.[^.]*$/, '') });
    return read.ok ? phraseWith(read.value.phrase, read.value.remarks) : read;
  });

type MusicReaders = Awaited<ReturnType<typeof loadMusicReaders>>;

async function withMusicReaders(read: (readers: MusicReaders) => Opened): Promise<Opened> {
  let readers: MusicReaders;
  try {
    readers = await loadMusicReaders();
  } catch {
    return refusal('notFetched');
  }
  return read(readers);
}

const phraseOfScore = (score: ReturnType<MusicReaders['readMusicXml']>): Opened =>
  score.ok ? phraseWith(score.value.phrase, score.value.unread) : score;

const phraseWith = (phrase: Phrase, remarks: readonly { readonly sentence: string }[]): Opened =>
  good({ kind: 'phrases', phrases: [phrase], remarks: remarks.map(({ sentence }) => sentence) });

function utf8Text(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return undefined;
  }
}
