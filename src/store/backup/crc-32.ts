/** The polynomial of RFC 1952, section 8, with its lowest power first. */
const POLYNOMIAL = 0xedb88320;

const TABLE = Uint32Array.from({ length: 256 }, (_, byte) => {
  let remainder = byte;
  for (let bit = 0; bit < 8; bit++)
    remainder = (remainder & 1) === 1 ? (remainder >>> 1) ^ POLYNOMIAL : remainder >>> 1;
  return remainder;
});

/**
 * The checksum of RFC 1952 (gzip), which sees any change within 32 bits in a row for certain. Here rather than SHA-256,
 * which pages that came over plain http do not have.
 *
 * @param before the checksum of the bytes ahead of these
 * @example crc32(new TextEncoder().encode('123456789')).toString(16) // => 'cbf43926'
 */
export function crc32(bytes: Uint8Array, before = 0): number {
  let remainder = ~before;
  for (const byte of bytes) remainder = TABLE[(remainder ^ byte) & 0xff]! ^ (remainder >>> 8);
  return ~remainder >>> 0;
}
