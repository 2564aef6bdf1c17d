import 'vitest/browser';

/** Where pictures are compared by `.scripts/near-ink.mjs`; there is nothing to choose. */
declare module 'vitest/browser' {
  interface ScreenshotComparatorRegistry {
    nearInk: Readonly<Record<string, never>>;
  }
}
