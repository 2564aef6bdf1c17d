import { strFromU8, strToU8, unzipSync, zipSync, type UnzipFileInfo } from 'fflate';
import type { Result } from '../../time/result';
import type { Score } from '../score/score';
import { refused, type MusicXmlError } from './musicxml-error';
import { readMusicXml, type MusicXmlExcerpt, type MusicXmlReading } from './read-musicxml';
import { writeMusicXml } from './write-musicxml';
import { childOf, childrenOf, MOST_XML, parseXml } from './xml-tree';

/** As the MusicXML 4.0 tutorial on compressed files has them. */
const CONTAINER = 'META-INF/container.xml';
const MEDIA_TYPE = 'application/vnd.recordare.musicxml';
const SCORE = 'score.musicxml';
/** Zip files begin with the letters PK. */
const ZIP = [0x50, 0x4b];
/** A score with its pictures and parts has fewer. Chosen, not measured. */
const MOST_ENTRIES = 1000;
/** Every file has a time in a zip; the first that all can have. */
const NO_TIME = '1980-01-02T12:00:00';

/**
 * The same as `writeMusicXml`, compressed.
 *
 * @throws RangeError without a score.
 * @example readMxl(writeMxl([layerScore(checkPhrase({ title: 'Slip', meter: '4/4', tempoBpm: 90, subdivision: 4, grouping: 'R L K', layers: [{ name: 'Sticking' }] }).value, 1)])).value.phrase.title // => 'Slip'
 */
export function writeMxl(scores: readonly Score[]): Uint8Array {
  const container = `<?xml version="1.0" encoding="UTF-8"?><container><rootfiles><rootfile full-path="${SCORE}" media-type="${MEDIA_TYPE}+xml"/></rootfiles></container>`;
  return zipSync(
    {
      mimetype: [strToU8(MEDIA_TYPE), { level: 0 }],
      [CONTAINER]: strToU8(container),
      [SCORE]: strToU8(writeMusicXml(scores)),
    },
    { mtime: NO_TIME },
  );
}

/**
 * Reads the score of a compressed MusicXML file, as `readMusicXml` does. Sizes are looked at before anything is
 * inflated, and only the score is.
 *
 * @example readMxl(new Uint8Array([1, 2, 3])).errors[0].code // => 'NOT_MXL'
 */
export function readMxl(
  bytes: Uint8Array,
  excerpt: MusicXmlExcerpt = {},
): Result<MusicXmlReading, MusicXmlError> {
  if (bytes.length > MOST_XML) return tooLarge(bytes.length);
  if (ZIP.some((byte, i) => bytes[i] !== byte))
    return refused('NOT_MXL', 'This is no compressed MusicXML; choose a file that ends in .mxl.');
  const entries = entriesOf(bytes);
  if (!entries) return damaged();
  const name = scoreIn(bytes, entries);
  const entry = entries.find((one) => one.name === name);
  if (!entry)
    return refused('NOT_MXL', 'There is no score in this compressed file; choose another file.');
  if (entry.originalSize > MOST_XML) return tooLarge(entry.originalSize);
  const text = inflated(bytes, entry);
  return text === undefined ? damaged() : readMusicXml(text, excerpt);
}

const tooLarge = (found: number) =>
  refused(
    'TOO_LARGE',
    `The file has ${found} bytes where ${MOST_XML} are possible; save fewer bars.`,
  );
const damaged = () =>
  refused('NOT_MXL', 'This compressed file is damaged; fetch or save it again.');

/** What is in a zip; undefined where it is none, or has too much in it. */
function entriesOf(bytes: Uint8Array): readonly UnzipFileInfo[] | undefined {
  const entries: UnzipFileInfo[] = [];
  try {
    unzipSync(bytes, {
      filter: (entry) => {
        if (entries.length >= MOST_ENTRIES) throw new RangeError('too many entries');
        entries.push(entry);
        return false;
      },
    });
  } catch {
    return undefined;
  }
  return entries;
}

/** The text of an entry; undefined where it is damaged. */
function inflated(bytes: Uint8Array, { name }: UnzipFileInfo): string | undefined {
  let isTaken = false;
  try {
    const files = unzipSync(bytes, {
      filter: (entry) => {
        const isSought = !isTaken && entry.name === name && entry.originalSize <= MOST_XML;
        isTaken ||= isSought;
        return isSought;
      },
    });
    const file = files[name];
    return file && strFromU8(file);
  } catch {
    return undefined;
  }
}

/** The score that the container names, else the first XML that is none of its own. */
function scoreIn(bytes: Uint8Array, entries: readonly UnzipFileInfo[]): string | undefined {
  const container = entries.find(({ name }) => name === CONTAINER);
  const text = container && inflated(bytes, container);
  const parsed = text === undefined ? undefined : parseXml(text);
  const root = parsed?.ok === true ? parsed.value : undefined;
  const [first] = childrenOf(childOf(root, 'rootfiles'), 'rootfile');
  return (
    first?.attributes['full-path'] ??
    entries.find(({ name }) => /^(?!META-INF\/).*\.(xml|musicxml)$/i.test(name))?.name
  );
}
