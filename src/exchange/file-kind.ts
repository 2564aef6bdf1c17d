import { isLink } from '../phrase/file/phrase-link';

/** What a file or a text that is opened may be. */
export type FileKind =
  | 'phrase'
  | 'phrases'
  | 'take'
  | 'kit'
  | 'MIDI file'
  | 'score'
  | 'compressed score'
  | 'backup'
  | 'link';

/** The bytes that a file of a kind begins with. The place for kinds that are not JSON. */
const BEGINNINGS: readonly (readonly [FileKind, readonly number[]])[] = [
  // "MThd" (Standard MIDI Files 1.0), the head of gzip (RFC 1952, 2.3.1) and of a file in a zip archive.
  ['MIDI file', [0x4d, 0x54, 0x68, 0x64]],
  ['backup', [0x1f, 0x8b]],
  ['compressed score', [0x50, 0x4b, 0x03, 0x04]],
];

/** The keys that only files of a kind have, the surest first: a take has phrase and kit inside it. */
const KEYS: readonly (readonly [FileKind, readonly string[]])[] = [
  ['take', ['take', 'messages']],
  ['phrases', ['phrases']],
  ['kit', ['pads', 'opening', 'crosstalk']],
  ['phrase', ['grouping', 'layers', 'subdivision', 'cycle', 'meter', 'tempoBpm', 'swing', 'title']],
];

/** A link is shorter, and so is what somebody writes around it. Chosen. */
const MOST_OF_A_LINK = 100_000;

/**
 * What a file holds, told by its content alone; undefined when it is nothing that is read here. Whether it is whole and
 * right is left to who reads it: a file that is cut off is still a phrase, a kit or a take.
 *
 * @example fileKind(Uint8Array.of(0x4d, 0x54, 0x68, 0x64)) // => 'MIDI file'
 */
export function fileKind(bytes: Uint8Array): FileKind | undefined {
  for (const [kind, beginning] of BEGINNINGS)
    if (beginning.every((byte, i) => bytes[i] === byte)) return kind;
  if (bytes[firstSign(bytes)] === LESS_THAN) return 'score';
  const keys = topKeys(bytes);
  for (const [kind, own] of KEYS) if (own.some((key) => keys.has(key))) return kind;
  if (keys.size > 0 || bytes.length > MOST_OF_A_LINK) return undefined;
  return isLink(asciiOf(bytes)) ? 'link' : undefined;
}

const [QUOTE, BACKSLASH, COLON, OPEN_BRACE, LESS_THAN] = [0x22, 0x5c, 0x3a, 0x7b, 0x3c];
const OPENING: ReadonlySet<number> = new Set([OPEN_BRACE, 0x5b]);
const CLOSING: ReadonlySet<number> = new Set([0x7d, 0x5d]);
const SPACES: ReadonlySet<number> = new Set([0x20, 0x09, 0x0a, 0x0d]);
/** No key that is looked for is longer. */
const MOST_OF_A_KEY = 16;

/**
 * The keys of the outermost object of a JSON text in UTF-8, as far as the text goes: it need not be whole. In UTF-8 no
 * byte of a longer character is one of ASCII, so bytes are looked at alone.
 */
function topKeys(bytes: Uint8Array): Set<string> {
  const keys = new Set<string>();
  let at = firstSign(bytes);
  if (bytes[at] !== OPEN_BRACE) return keys;
  let depth = 0;
  for (; at < bytes.length; at++) {
    const byte = bytes[at]!;
    if (OPENING.has(byte)) depth++;
    else if (CLOSING.has(byte)) {
      depth--;
      if (depth === 0) return keys;
    } else if (byte === QUOTE) {
      const end = endOfText(bytes, at + 1);
      const isKey = depth === 1 && bytes[afterSpaces(bytes, end + 1)] === COLON;
      if (isKey && end - at <= MOST_OF_A_KEY) keys.add(asciiOf(bytes.subarray(at + 1, end)));
      at = end;
    }
  }
  return keys;
}

/** Where the quote stands that ends a text, or the file does. */
function endOfText(bytes: Uint8Array, from: number): number {
  let at = from;
  while (at < bytes.length && bytes[at] !== QUOTE) at += bytes[at] === BACKSLASH ? 2 : 1;
  return Math.min(at, bytes.length);
}

/** Where the text begins, after a byte order mark and spaces. */
function firstSign(bytes: Uint8Array): number {
  const hasMark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
  return afterSpaces(bytes, hasMark ? 3 : 0);
}

function afterSpaces(bytes: Uint8Array, from: number): number {
  let at = from;
  while (at < bytes.length && SPACES.has(bytes[at]!)) at++;
  return at;
}

/** The characters of ASCII, and a sign that stands in no link for all others. */
function asciiOf(bytes: Uint8Array): string {
  let text = '';
  for (const byte of bytes) text += byte < 0x80 ? String.fromCharCode(byte) : '\uFFFD';
  return text;
}
