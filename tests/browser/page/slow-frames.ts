/**
 * Puts a page's own drawing on ten frames a second. A page without a graphics card draws on the processor, which the
 * strokes, clicks and stores that are tested need more.
 */
export const slowFramesScript = (): string => `(${slowFrames.toString()})()`;

/** Uses nothing outside itself, to be put into a page. */
function slowFrames(): void {
  const FRAME_MS = 100;
  window.requestAnimationFrame = (draw) =>
    window.setTimeout(() => draw(performance.now()), FRAME_MS);
  window.cancelAnimationFrame = (frame) => window.clearTimeout(frame);
}
