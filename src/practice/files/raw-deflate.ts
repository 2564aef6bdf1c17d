import type { LinkPacking } from '../../phrase/file/phrase-link';
import { eachChunk } from '../../store/backup/each-chunk';

/**
 * Bytes that are inflated at once. A browser inflates all it is given before it hands anything on, a thousand times as
 * much at worst, so it is given little.
 */
const SLICE_BYTES = 512;

class TooLarge extends Error {}

/** Undefined in browsers that have no such stream, or none of that format. */
function streamOrNone<T>(make: () => T): T | undefined {
  try {
    return make();
  } catch {
    return undefined;
  }
}

/** Links are packed by the browser's own raw deflate (Compression Streams; RFC 1951). */
export const RAW_DEFLATE: LinkPacking = {
  async deflate(text) {
    const deflate = streamOrNone(() => new CompressionStream('deflate-raw'));
    if (!deflate) return undefined;
    const packed = new Blob([text]).stream().pipeThrough(deflate);
    return new Uint8Array(await new Response(packed).arrayBuffer());
  },
  async inflate(bytes, most) {
    const inflate = streamOrNone(() => new DecompressionStream('deflate-raw'));
    if (!inflate) return 'not here';
    const decoder = new TextDecoder('utf-8', { fatal: true });
    let found = 0;
    let text = '';
    try {
      await eachChunk(slicesOf(bytes).pipeThrough(inflate), (chunk) => {
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
