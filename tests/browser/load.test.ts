import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { launchChromium } from './launch';
import { watchPage } from './watch-page';

/** How long the loaded page is watched for requests it should not make. */
const QUIET_MS = 1500;

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

describe('the built app in Chromium', () => {
  it('shows itself without a console message or a policy violation', async () => {
    const page = await browser.newPage();
    const { faults } = watchPage(page);
    await page.goto(inject('address'), { waitUntil: 'networkidle' });
    await page.getByRole('heading', { level: 1 }).waitFor();
    expect(await page.title()).not.toBe('');
    expect(faults).toEqual([]);
    await page.close();
  });

  it('asks only its own origin while loading, and nobody afterwards', async () => {
    const address = inject('address');
    const page = await browser.newPage();
    const { requests } = watchPage(page);
    await page.goto(address, { waitUntil: 'networkidle' });
    expect(requests.length).toBeGreaterThan(0);
    expect(requests.filter((url) => !url.startsWith(address))).toEqual([]);

    const loaded = requests.length;
    await page.waitForTimeout(QUIET_MS);
    expect(requests.slice(loaded)).toEqual([]);
    await page.close();
  });

  it('is held by its policy: inline script, inline style and foreign requests are refused', async () => {
    const page = await browser.newPage();
    const { faults } = watchPage(page);
    await page.goto(inject('address'), { waitUntil: 'networkidle' });
    await page.evaluate(async () => {
      const style = document.createElement('style');
      style.textContent = 'body { color: red }';
      const script = document.createElement('script');
      script.textContent = 'document.title = "run"';
      document.head.append(style, script);
      await fetch('https://example.invalid/').catch(() => undefined);
    });
    expect(await page.title()).not.toBe('run');
    const told = faults.join('\n');
    expect(told).toContain("'script-src' was not explicitly set");
    expect(told).toContain("'connect-src' was not explicitly set");
    expect(told).toContain('style-src');
    await page.close();
  });
});
