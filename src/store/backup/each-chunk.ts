/** Goes through a stream; what `take` throws ends it. */
export async function eachChunk(
  stream: ReadableStream<Uint8Array<ArrayBuffer>>,
  take: (chunk: Uint8Array<ArrayBuffer>) => Promise<void> | void,
): Promise<void> {
  const reader = stream.getReader();
  try {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      await take(value);
    }
  } catch (error) {
    await reader.cancel().catch(() => undefined);
    throw error;
  }
}
