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
  | {
      readonly kind: 'MIDI file';
      readonly file: File;
      readonly midi: MidiFile;
      /** The phrase that is written in it; undefined where it was played, or holds none. */
      readonly written: WrittenPhrase | undefined;
    }
  | BackupInFile;

/** A phrase that stands in a file of another kind, and what is to be said of it. */
export interface WrittenPhrase {
  readonly phrase: Phrase;
  readonly remarks: readonly string[];
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
  'MIDI file': async (file, bytes) => {
    const midi = readMidiFile(bytes);
    if (!midi.ok) return midi;
    const written = await writtenIn(file, midi.value);
    return good({ kind: 'MIDI file', file, midi: midi.value, written });
  },
  score: (_, bytes) => {
    const text = utf8Text(bytes);
    return text === undefined
      ? refusal('notText')
      : readScore(({ readMusicXml }) => readMusicXml(text));
  },
  'compressed score': (_, bytes) => readScore(({ readMxl }) => readMxl(bytes)),
  backup: (file, _, { backups }) => backups.open(file),
};

/** Readers of music are fetched when there is some to read. */
const musicReaders = () => import('./music-readers');
type MusicReaders = Awaited<ReturnType<typeof musicReaders>>;

async function writtenIn({ name }: File, midi: MidiFile): Promise<WrittenPhrase | undefined> {
  const { phraseInFile } = await musicReaders();
  const written = phraseInFile(midi, { title: name.replace(/\.[^.]*$/, '') });
  if (!written.ok) return undefined;
  const { phrase, remarks } = written.value;
  return { phrase, remarks: remarks.map(({ sentence }) => sentence) };
}

async function readScore(
  read: (readers: MusicReaders) => ReturnType<MusicReaders['readMusicXml']>,
): Promise<Opened> {
  const score = read(await musicReaders());
  if (!score.ok) return score;
  const { phrase, unread } = score.value;
  return good({
    kind: 'phrases',
    phrases: [phrase],
    remarks: unread.map(({ sentence }) => sentence),
  });
}

function utf8Text(bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return undefined;
  }
}
