/** What the page knows of browser and screen: nothing of the person. */
export const browserFacts = () => ({
  browser: navigator.userAgent,
  processors: navigator.hardwareConcurrency,
  window: `${innerWidth} × ${innerHeight}`,
  screen: `${screen.width} × ${screen.height}`,
  pixelsPerPoint: devicePixelRatio,
  reducedMotion: matchMedia('(prefers-reduced-motion: reduce)').matches,
  crossOriginIsolated,
  wakeLock: 'wakeLock' in navigator,
});

export type BrowserFacts = ReturnType<typeof browserFacts>;
