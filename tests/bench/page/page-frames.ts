/** What the page's frames did, as seen from a wrapper round requestAnimationFrame. */
export interface PageFrames {
  /** Frame times as the browser gives them, ms, and how long the callbacks of each took. */
  readonly at: number[];
  readonly workMs: number[];
  /** Called after the callbacks of each frame, with the time of that, until it gives back true. */
  afterFrame: ((endMs: number) => boolean) | undefined;
}

declare global {
  interface Window {
    pageFrames: PageFrames;
  }
}

/** Runs in a page before its own scripts; uses nothing outside itself. */
export function watchFrames(): void {
  const frames: PageFrames = { at: [], workMs: [], afterFrame: undefined };
  const request = window.requestAnimationFrame.bind(window);
  window.requestAnimationFrame = (callback) =>
    request((at) => {
      const from = performance.now();
      callback(at);
      const end = performance.now();
      const last = frames.at.length - 1;
      if (frames.at[last] === at) frames.workMs[last]! += end - from;
      else {
        frames.at.push(at);
        frames.workMs.push(end - from);
      }
      if (frames.afterFrame?.(end)) frames.afterFrame = undefined;
    });
  window.pageFrames = frames;
}
