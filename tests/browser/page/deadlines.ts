import type { Locator, Page } from 'playwright-core';

/** A wait of the page's own from here on is a deadline: half a second. */
const DEADLINE_MS = 500;

interface PageDeadlines {
  /** Lets the next deadline be over, up to so many milliseconds since the page was opened. */
  passNext(mostMs: number): void;
  /** From now on all of them take their time. */
  letGo(): void;
}

declare global {
  interface Window {
    deadlines: PageDeadlines;
  }
}

/**
 * Puts a page's deadlines on a clock that stands still, so that what it waits for is told from what a slow machine takes:
 * they are over when a test says so, one after the other.
 */
export const deadlinesScript = (): string => `(${holdDeadlines.toString()})(${DEADLINE_MS})`;

/** Uses nothing outside itself, to be put into a page. */
function holdDeadlines(deadlineMs: number): void {
  type Work = (...args: unknown[]) => void;
  // Node's own, whose types lie over the browser's here, gives no number.
  const start = window.setTimeout.bind(window) as unknown as (
    work: Work,
    ms?: number,
    ...args: unknown[]
  ) => number;
  const end = window.clearTimeout.bind(window);
  const held = new Map<number, { readonly atMs: number; readonly work: () => void }>();
  /** By its number while it was held, what it is now. */
  const goingOn = new Map<number, number>();
  let nowMs = 0;
  let count = 0;
  let isHolding = true;
  const started = (work: Work, ms = 0, ...args: unknown[]): number => {
    if (!isHolding || ms < deadlineMs) return start(work, ms, ...args);
    held.set(-++count, { atMs: nowMs + ms, work: () => work(...args) });
    return -count;
  };
  window.setTimeout = started as typeof setTimeout;
  window.clearTimeout = (timer) => {
    if (!held.delete(timer as number)) end(goingOn.get(timer as number) ?? timer);
  };
  window.deadlines = {
    passNext(mostMs) {
      const [next] = [...held].sort(([, a], [, b]) => a.atMs - b.atMs);
      if (!next || next[1].atMs > mostMs) return;
      held.delete(next[0]);
      nowMs = next[1].atMs;
      next[1].work();
    },
    letGo() {
      isHolding = false;
      for (const [timer, { atMs, work }] of held) goingOn.set(timer, start(work, atMs - nowMs));
      held.clear();
    },
  };
}

const LOOK_MS = 40;
/** What can be done without another deadline is done by then, on slow cores, too. */
const LOOKS_A_DEADLINE = 25;

/** Waits until something shows, with no more of the page's own waiting than so many milliseconds since it was opened. */
export async function showsWithin(mostMs: number, page: Page, shown: Locator): Promise<void> {
  const endMs = performance.now() + 60_000;
  for (let look = 1; !(await shown.first().isVisible()); look++) {
    if (performance.now() > endMs)
      throw new Error(`${String(shown)} does not show within ${mostMs} ms`);
    await new Promise((resolve) => setTimeout(resolve, LOOK_MS));
    if (look % LOOKS_A_DEADLINE === 0)
      await page.evaluate((ms) => window.deadlines.passNext(ms), mostMs);
  }
}

/** From now on a page's deadlines take their time. */
export const letDeadlinesGo = (page: Page): Promise<void> =>
  page.evaluate(() => window.deadlines.letGo());
