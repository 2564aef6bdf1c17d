import { deflateRawSync, inflateRawSync } from 'node:zlib';
import type { LinkPacking } from '../../../src/phrase/file/phrase-link';

/** Raw deflate by zlib, which is none of the browser's. */
export const ZLIB: LinkPacking = {
  deflate: async (text) => new Uint8Array(deflateRawSync(text)),
  async inflate(bytes, most) {
    try {
      const plain = inflateRawSync(bytes, { maxOutputLength: most });
      return { text: new TextDecoder('utf-8', { fatal: true }).decode(plain) };
    } catch (error) {
      const { code } = error as { code?: string };
      return code === 'ERR_BUFFER_TOO_LARGE' ? 'too large' : 'damaged';
    }
  },
};
