import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { CHAPTER_IDS } from '../../src/view/shell/route';
import { openApp } from './page/app';
import { firstLoad } from './page/first-load';
import { launchChromium } from './page/launch';
import { watchPage } from './page/watch-page';

/** How long the loaded page is watched for requests it should not make. */
const QUIET_MS = 1500;

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

describe.concurrent('the built app in Chromium', () => {
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
    await page.waitForFunction(() => performance.getEntriesByName('all fetched').length > 0);
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

  it('asks for nothing while a take is played, not even when it is begun at once', async () => {
    const { page, faults, close } = await openApp(browser, '', 'commit');
    await page.getByTestId('start').click();
    await page.getByTestId('status').getByText('Playing').waitFor();
    const requests: string[] = [];
    // Chromium looks at the icon again with each address; the page asks for the rest.
    page.on('request', (request) => {
      if (!request.url().endsWith('.svg')) requests.push(request.url());
    });
    await page.getByTestId('lane-table').locator('tr[data-verdict="in time"]').first().waitFor({
      state: 'attached',
    });
    await page.getByRole('navigation').getByRole('link', { name: 'Kit' }).click();
    await page.getByRole('heading', { level: 1, name: 'Kit' }).waitFor();
    await page.getByRole('navigation').getByRole('link', { name: 'Practise' }).click();
    await page.getByTestId('start').getByText('Stop').waitFor();
    expect(requests).toEqual([]);
    await page.getByTestId('start').click();
    await page.getByTestId('last-take').waitFor();
    expect(faults).toEqual([]);
    await close();
  });

  it('shows the start button before it asks for screens, sound or MIDI', async () => {
    const { scripts, startMs } = await firstLoad(browser, inject('address'), inject('folder'));
    expect(startMs).toBeGreaterThan(0);
    expect(scripts.length).toBeGreaterThan(0);
    expect(
      scripts.filter(({ name }) => /Screen|audio-graph|webmidi|later|take-scoring/.test(name)),
    ).toEqual([]);
  });

  it('shows the guide and its pictures without a connection, once all is fetched', async () => {
    const context = await browser.newContext();
    const page = await context.newPage();
    const { requests } = watchPage(page);
    await page.goto(inject('address'), { waitUntil: 'networkidle' });
    await page.waitForFunction(() => performance.getEntriesByName('all fetched').length > 0);
    const fetched = requests.length;
    await context.setOffline(true);
    for (const chapter of CHAPTER_IDS) {
      await page.evaluate((id) => (location.hash = `#help/${id}`), chapter);
      const picture = page.getByTestId('guide-picture');
      await picture.waitFor();
      expect(await picture.evaluate((image: HTMLImageElement) => image.naturalWidth)).toBe(1120);
      await page.evaluate(() => (location.hash = '#help'));
      await picture.waitFor({ state: 'detached' });
    }
    // Chromium looks at the icon again with each address.
    expect(requests.slice(fetched).filter((url) => !url.endsWith('.svg'))).toEqual([]);
    await context.close();
  });

  it('says when a screen cannot be fetched, and fetches it when it is tried again', async () => {
    const page = await browser.newPage();
    await page.route(/HelpScreen|Help-.*\.js/, (route) => route.abort());
    await page.goto(inject('address'), { waitUntil: 'networkidle' });
    await page.getByRole('navigation').getByRole('link', { name: 'Help' }).click();
    await page.getByRole('alert').waitFor();
    await page.unrouteAll();
    await page.getByRole('button', { name: 'Try again' }).click();
    const heading = page.getByRole('heading', { level: 1, name: 'Help' });
    await heading.waitFor();
    await page.getByRole('alert').waitFor({ state: 'detached' });
    expect(await heading.evaluate((one) => one === document.activeElement)).toBe(true);
    await page.close();
  });

  it.each([
    [1440, 900],
    [390, 844],
  ])(
    'says in the place of the lane that it could not be fetched, at %i by %i',
    async (width, height) => {
      const page = await browser.newPage({ viewport: { width, height } });
      await page.route(/below-the-head.*\.js/, (route) => route.abort());
      await page.goto(inject('address'), { waitUntil: 'networkidle' });
      const alert = page.getByRole('alert');
      await alert.getByText(/^The lane and the settings could not be fetched/).waitFor();
      const { y, height: high } = (await alert.boundingBox())!;
      const start = (await page.getByTestId('start').boundingBox())!;
      expect(y + high).toBeLessThan(width < 640 ? start.y : height);
      await page.unrouteAll();
      await page.getByRole('button', { name: 'Try again' }).click();
      await page.getByRole('img', { name: /^Lane/ }).waitFor();
      await alert.waitFor({ state: 'detached' });
      await page.close();
    },
  );

  it('fetches the styles of a screen again that did not come with it', async () => {
    const page = await browser.newPage();
    await page.route(/Help-.*\.css/, (route) => route.abort());
    await page.goto(inject('address'), { waitUntil: 'networkidle' });
    await page.getByRole('navigation').getByRole('link', { name: 'Help' }).click();
    const again = page.getByRole('button', { name: 'Try again' });
    await again.click();
    await page.getByRole('alert').waitFor();
    await page.unrouteAll();
    await again.click();
    await page.getByRole('heading', { level: 1, name: 'Help' }).waitFor();
    await page.getByRole('alert').waitFor({ state: 'detached' });
    const styled = await page.evaluate(() =>
      [...document.styleSheets].some(
        ({ href, cssRules }) => /Help-/.test(href!) && cssRules.length > 0,
      ),
    );
    expect(styled).toBe(true);
    await page.close();
  });

  it('shows the lane before anything is played, where another screen was first', async () => {
    const page = await browser.newPage();
    await page.goto(`${inject('address')}#help`);
    await page.waitForFunction(() => performance.getEntriesByName('all fetched').length > 0);
    await page.getByRole('link', { name: 'Practise', exact: true }).first().click();
    await page.getByRole('img', { name: /^Lane/ }).waitFor();
    await page.close();
  });

  it('moves the focus to the heading of a screen once it has come', async () => {
    const page = await browser.newPage();
    await page.route(/LogScreen.*\.js/, async (route) => {
      await new Promise((resolve) => setTimeout(resolve, 700));
      await route.continue();
    });
    await page.goto(inject('address'), { waitUntil: 'commit' });
    await page.getByTestId('start').waitFor();
    await page.getByRole('navigation').getByRole('link', { name: 'Log' }).click();
    await page.getByText('Fetching this screen.').waitFor();
    const heading = page.getByRole('heading', { level: 1, name: 'Log' });
    await heading.waitFor();
    await page.getByText('Fetching this screen.').waitFor({ state: 'detached' });
    await page.waitForFunction(() => document.activeElement?.tagName === 'H1');
    await page.close();
  });
});
