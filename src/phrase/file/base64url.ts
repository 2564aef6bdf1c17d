/** RFC 4648, table 2: the alphabet that is safe in addresses and file names. */
const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_';
const VALUE_OF = new Map([...ALPHABET].map((letter, value) => [letter.charCodeAt(0), value]));

/**
 * Bytes as base64url without padding (RFC 4648, 5).
 *
 * @example base64urlText(Uint8Array.of(0x66, 0x6f)) // => 'Zm8'
 */
export function base64urlText(bytes: Uint8Array): string {
  let text = '';
  for (let i = 0; i < bytes.length; i += 3) {
    const three = (bytes[i]! << 16) | ((bytes[i + 1] ?? 0) << 8) | (bytes[i + 2] ?? 0);
    const letters = Math.min(3, bytes.length - i) + 1;
    for (let k = 0; k < letters; k++) text += ALPHABET[(three >> (18 - 6 * k)) & 63]!;
  }
  return text;
}

/**
 * The bytes that such a text stands for; undefined when it is none: a letter outside the alphabet, a letter alone at the
 * end, or one there with bits that no byte has (RFC 4648, 3.5).
 *
 * @example base64urlBytes('Zm8')?.length // => 2
 */
export function base64urlBytes(text: string): Uint8Array | undefined {
  if (text.length % 4 === 1) return undefined;
  const bytes = new Uint8Array(Math.floor((text.length * 3) / 4));
  let bits = 0;
  let held = 0;
  let at = 0;
  for (let i = 0; i < text.length; i++) {
    const value = VALUE_OF.get(text.charCodeAt(i));
    if (value === undefined) return undefined;
    held = ((held << 6) | value) & 0xfff;
    bits += 6;
    if (bits < 8) continue;
    bits -= 8;
    bytes[at++] = held >> bits;
  }
  const isClean = (held & ((1 << bits) - 1)) === 0;
  return isClean ? bytes : undefined;
}
