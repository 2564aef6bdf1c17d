import type { LinkPacking } from '../../phrase/file/phrase-link';
import { eachChunk } from '../../store/backup/each-chunk';

/**
 * Bytes that are inflated at once. A browser inflates all it is given before it hands anything on, a thousand times as
 * much at worst, so it is given little.
 */
const SLICE_BYTES = 512;

class TooLarge extends Error {}

/** Links are packed by the browser's own raw deflate (Compression Streams; RFC 1951). */
export const RAW_DEFLATE: LinkPacking = {
  async deflate(text) {
    if (!('CompressionStream' in globalThis)) return undefined;
    const packed = new Blob([text]).stream().pipeThrough(new CompressionStream('deflate-raw'));
    return new Uint8Array(await new Response(packed).arrayBuffer());
  },
  async inflate(bytes, most) {
    if (!('DecompressionStream' in globalThis)) return 'not here';
    const decoder = new TextDecoder('utf-8', { fatal: true });
    let found = 0;
    let text = '';
    try {
      const unpacked = slicesOf(bytes).pipeThrough(new DecompressionStream('deflate-raw'));
      await eachChunk(unpacked, (chunk) => {
        found += chunk.length;
        if (found > most) throw new TooLarge();
        text += decoder.decode(chunk, { stream: true });
      });
      return { text: text + decoder.decode() };
    } catch (error) {
      return error instanceof TooLarge ? 'too large' : 'damaged';
    }
  },
};

function slicesOf(bytes: Uint8Array): ReadableStream<Uint8Array<ArrayBuffer>> {
  let at = 0;
  return new ReadableStream({
    pull(controller) {
      if (at >= bytes.length) return controller.close();
      controller.enqueue(bytes.slice(at, (at += SLICE_BYTES)));
    },
  });
}
