import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { launchChromium } from './launch';
import { serveApp } from './serve-app';

/** The pictures of the README: the app itself, played by its simulated player. */
const FOLDER = fileURLToPath(new URL('../../.pictures/', import.meta.url));
const PHRASE = 'Quay Steps';
/** Long enough for the figures of several cycles. */
const PLAYING_MS = 21_000;

async function openApp(browser: Browser, address: string, scheme: 'light' | 'dark') {
  const page = await browser.newPage({
    viewport: { width: 1440, height: 900 },
    colorScheme: scheme,
  });
  await page.goto(address, { waitUntil: 'networkidle' });
  await page.goto(`${address}#/phrases`);
  await page.getByRole('link', { name: PHRASE }).click();
  await page.getByTestId('practise-this').click();
  return page;
}

async function picturePractice(page: Page, path: string) {
  await page.getByTestId('layer-step').last().click();
  await page.getByTestId('start').click();
  await page.waitForTimeout(PLAYING_MS);
  await page.screenshot({ path });
  await page.getByTestId('start').click();
}

mkdirSync(FOLDER, { recursive: true });
const app = await serveApp();
const browser = await launchChromium();
const light = await openApp(browser, app.address, 'light');
await picturePractice(light, `${FOLDER}practise-light.png`);
await light.goto(`${app.address}#/phrases`);
await light.getByRole('link', { name: PHRASE }).click();
await light.getByTestId('practise-this').waitFor();
await light.screenshot({ path: `${FOLDER}phrase-light.png` });
await light.goto(`${app.address}#/log`);
await light.getByTestId('take-row').first().getByRole('link').first().click();
await light.getByTestId('lane-table').waitFor({ state: 'attached' });
await light.screenshot({ path: `${FOLDER}take-light.png` });
const dark = await openApp(browser, app.address, 'dark');
await picturePractice(dark, `${FOLDER}practise-dark.png`);
await browser.close();
await app.close();
process.stdout.write(`Four pictures are in ${FOLDER}\n`);
