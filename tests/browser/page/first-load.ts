import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Browser } from 'playwright-core';

/** What the page asked for until the start button could be pressed. */
export interface FirstLoad {
  /** Scripts, gzip, bytes. */
  readonly scriptBytes: number;
  readonly scripts: readonly { readonly name: string; readonly bytes: number }[];
  /** From the start of the navigation, ms on the page's clock. */
  readonly startMs: number;
}

/** In the page, before its own scripts: notes when the start button is there and can be pressed. */
const watchStart = () => {
  const look = () => {
    const button = document.querySelector<HTMLButtonElement>('[data-testid=start]');
    if (!button || button.disabled) return;
    Object.assign(window, { startSeenMs: performance.now() });
    watcher.disconnect();
  };
  const watcher = new MutationObserver(look);
  watcher.observe(document, { childList: true, subtree: true, attributes: true });
};

/**
 * Opens the built app in a fresh context, cold. `builtIn` is the folder the address serves; `slowdown` is how many times
 * slower than this machine the page's processor is.
 *
 * @throws when the button does not come, or is covered and takes no click
 */
export async function firstLoad(
  browser: Browser,
  address: string,
  builtIn: string,
  slowdown = 1,
): Promise<FirstLoad> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
  try {
    const page = await context.newPage();
    const session = await context.newCDPSession(page);
    await session.send('Emulation.setCPUThrottlingRate', { rate: slowdown });
    // tsx leaves calls of this helper in functions; here their text goes into a page.
    await page.addInitScript('globalThis.__name = (one) => one');
    await page.addInitScript(watchStart);
    await page.goto(address);
    const start = page.getByTestId('start');
    await start.click({ trial: true });
    const { startMs, asked } = await page.evaluate(() => {
      const startMs = (window as unknown as { startSeenMs: number }).startSeenMs;
      const requests = performance.getEntriesByType('resource') as PerformanceResourceTiming[];
      return {
        startMs,
        asked: requests.filter((one) => one.startTime <= startMs).map(({ name }) => name),
      };
    });
    const names = asked.filter((url) => url.endsWith('.js')).map((url) => url.replace(address, ''));
    const scripts = await Promise.all(
      names.map(async (name) => ({
        name,
        bytes: gzipSync(await readFile(join(builtIn, name))).length,
      })),
    );
    return { startMs, scripts, scriptBytes: scripts.reduce((sum, { bytes }) => sum + bytes, 0) };
  } finally {
    await context.close();
  }
}
