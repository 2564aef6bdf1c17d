import type { Page } from 'playwright-core';
import { launchChromium } from '../../browser/page/launch';
import { serveApp } from '../../browser/page/serve-app';
import { fakeMidiScript } from '../../midi/fake-midi-access';
import { watchFrames } from './page-frames';

/** The built app in a page of Chromium, with a virtual MIDI port and its frames watched; `script` runs before it. */
export async function withApp<T>(work: (page: Page) => Promise<T>, script = ''): Promise<T> {
  const app = await serveApp();
  const browser = await launchChromium();
  try {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
    // tsx leaves calls of this helper in functions; here their text goes into a page.
    await page.addInitScript('globalThis.__name = (one) => one');
    await page.addInitScript(fakeMidiScript());
    await page.addInitScript(watchFrames);
    if (script !== '') await page.addInitScript(script);
    await page.addInitScript(() => window.fakeMidi.plug('kit', 'Harbour kit'));
    await page.goto(app.address, { waitUntil: 'networkidle' });
    return await work(page);
  } finally {
    await browser.close();
    await app.close();
  }
}
