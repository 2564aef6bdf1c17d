/** Half of a pair without the other, which no byte can say. */
const LONE_HALF = /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g;

/**
 * Text as UTF-8; half a pair of surrogates becomes U+FFFD.
 *
 * @example utf8Bytes('Säge') // => [0x53, 0xc3, 0xa4, 0x67, 0x65]
 */
export function utf8Bytes(text: string): number[] {
  const escaped = encodeURIComponent(text.replace(LONE_HALF, '\uFFFD'));
  return (escaped.match(/%..|[^%]/g) ?? []).map((part) =>
    part.length === 3 ? parseInt(part.slice(1), 16) : part.charCodeAt(0),
  );
}

/**
 * The text of bytes: UTF-8 where they are that, else Latin-1, which older files are written in.
 *
 * @example textOfBytes(Uint8Array.of(0x53, 0xe4)) // => 'Sä'
 */
export function textOfBytes(bytes: Uint8Array): string {
  const latin = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  if (bytes.every((byte) => byte < 0x80)) return latin;
  try {
    return decodeURIComponent(latin.replace(/[%\u0080-\u00FF]/g, escapeOf));
  } catch {
    return latin;
  }
}

const escapeOf = (letter: string): string => `%${letter.charCodeAt(0).toString(16)}`;

/** The first bytes of a text, so many at most, that hold whole letters of UTF-8. */
export function wholeLetters(bytes: Uint8Array, most: number): Uint8Array {
  let end = Math.min(most, bytes.length);
  if (end < bytes.length) while (end > 0 && (bytes[end]! & 0xc0) === 0x80) end--;
  return bytes.subarray(0, end);
}
