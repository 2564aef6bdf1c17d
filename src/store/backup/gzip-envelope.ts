import { crc32 } from './crc-32';

/**
 * The head of a gzip file (RFC 1952, 2.3) with an extra field of our own, which holds the checksum of everything after
 * it. Any program that unpacks gzip reads the file; of the head itself no byte may differ.
 */
const HEAD = Uint8Array.of(
  ...[0x1f, 0x8b, 8],
  // There is an extra field; no time, no further flags, no system named.
  ...[4, 0, 0, 0, 0, 0, 255],
  // Its length, its name "LP", and the length of the checksum.
  ...[8, 0, 0x4c, 0x50, 4, 0],
);
const CHECKSUM_AT = HEAD.length;
export const ENVELOPE_BYTES = CHECKSUM_AT + 4;

/** Bytes of a whole number below 2^32, the lowest first. */
const fourBytes = (number: number): Uint8Array<ArrayBuffer> => {
  const bytes = new Uint8Array(4);
  new DataView(bytes.buffer).setUint32(0, number, true);
  return bytes;
};

/** A gzip file that is put together: its head names the checksum of all that comes after it. */
export class Envelope {
  readonly #parts: Uint8Array<ArrayBuffer>[] = [];
  #checksum = 0;

  /** The next deflated bytes. */
  add(part: Uint8Array<ArrayBuffer>): void {
    this.#checksum = crc32(part, this.#checksum);
    this.#parts.push(part);
  }

  /**
   * The whole file.
   *
   * @param crc of what is packed in it
   * @param length of that, bytes
   */
  close(crc: number, length: number): Blob {
    this.add(fourBytes(crc));
    this.add(fourBytes(length % 2 ** 32));
    return new Blob([HEAD, fourBytes(this.#checksum), ...this.#parts], {
      type: 'application/gzip',
    });
  }
}

/** The checksum that the head of a file names; undefined when it is no head of ours. */
export function sealOf(head: Uint8Array): number | undefined {
  if (head.length < ENVELOPE_BYTES || HEAD.some((byte, i) => head[i] !== byte)) return undefined;
  return new DataView(head.buffer, head.byteOffset).getUint32(CHECKSUM_AT, true);
}
