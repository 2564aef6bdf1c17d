import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest';
import { STORE_MESSAGES } from '../../src/store/store-problem';
import { goTo } from './app';
import { launchChromium } from './launch';
import { slowFramesScript } from './slow-frames';
import { watchPage } from './watch-page';

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

/** However the page is hindered, a screen shows within this. */
const SHOWS_WITHIN_MS = 3000;

async function openedWith(script: string) {
  const context = await browser.newContext({ viewport: { width: 1024, height: 640 } });
  const page = await context.newPage();
  const { faults } = watchPage(page);
  await page.addInitScript(slowFramesScript());
  await page.addInitScript(script);
  await page.goto(inject('address'), { waitUntil: 'commit' });
  return { page, faults, close: () => context.close() };
}

const heading = (page: Page, name: string) =>
  page.getByRole('heading', { level: 1, name, exact: true });

const NEVER = '() => new Promise(() => {})';

describe.concurrent('a browser that leaves a question unanswered', () => {
  it.each([
    [
      'whether to keep the data',
      `StorageManager.prototype.persist = ${NEVER};
      StorageManager.prototype.persisted = async () => false;`,
      undefined,
    ],
    [
      'which sound outputs there are',
      `MediaDevices.prototype.enumerateDevices = ${NEVER};`,
      undefined,
    ],
    ['whether MIDI is allowed', `Permissions.prototype.query = ${NEVER};`, undefined],
    ['where the databases are', `IDBFactory.prototype.databases = ${NEVER};`, undefined],
    [
      'to open the store',
      `const open = IDBFactory.prototype.open;
        IDBFactory.prototype.open = function (...names) {
          const request = open.apply(this, names);
          request.addEventListener = () => undefined;
          return request;
        };`,
      STORE_MESSAGES.SILENT,
    ],
  ])('%s: every screen shows, and what is wrong is told', async (_, script, sentence) => {
    const { page, faults, close } = await openedWith(script);
    await page.getByTestId('start').waitFor({ timeout: SHOWS_WITHIN_MS });
    for (const screen of ['Phrases', 'Kit', 'Log'] as const) {
      await goTo(page, screen);
      await heading(page, screen).waitFor({ timeout: SHOWS_WITHIN_MS });
    }
    if (sentence !== undefined) await page.getByTestId('notice').getByText(sentence).waitFor();
    expect(faults).toEqual([]);
    await close();
  });
});

describe('a player who is asked whether the data may be kept, and does not answer', () => {
  it('has the take in the log, and again after a reload', async () => {
    const script = `StorageManager.prototype.persist = ${NEVER};
      StorageManager.prototype.persisted = async () => false;`;
    const { page, faults, close } = await openedWith(script);
    await page.getByTestId('start').click();
    await page.waitForTimeout(6000);
    await page.getByRole('button', { name: 'Stop' }).click();
    for (let visit = 0; visit < 2; visit++) {
      await goTo(page, 'Log');
      await page.getByTestId('take-row').first().waitFor({ timeout: SHOWS_WITHIN_MS });
      expect(await page.getByTestId('take-row').count()).toBe(1);
      expect(await page.getByTestId('notice').allTextContents()).toEqual([]);
      await page.reload({ waitUntil: 'commit' });
    }
    expect(faults).toEqual([]);
    await close();
  });
});
