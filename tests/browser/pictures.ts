import { mkdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { launchChromium } from './launch';
import { serveApp } from './serve-app';

/** The pictures of the README: the app itself, played by its simulated player. */
const FOLDER = fileURLToPath(new URL('../../.pictures/', import.meta.url));
const VIEWPORT = { width: 1440, height: 900 };
const PHRASE = 'Quay Steps';
/** Long enough for the figures of several cycles. */
const PLAYING_MS = 21_000;

async function openApp(browser: Browser, address: string, scheme: 'light' | 'dark') {
  const page = await browser.newPage({
    viewport: VIEWPORT,
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

/** A layer of a phrase with two notes chosen for the next one. */
async function pictureComposer(page: Page, address: string, path: string) {
  await page.setViewportSize({ width: 1440, height: 1180 });
  await page.goto(`${address}#/phrases`);
  await page.getByRole('link', { name: 'Net Mender' }).click();
  await page.getByRole('link', { name: 'Make a copy of my own' }).click();
  await page.getByTestId('layer').nth(2).getByRole('button').first().click();
  for (const key of ['1/R', '5/L']) await page.locator(`[data-key="${key}"]`).click();
  await page.screenshot({ path });
  await page.setViewportSize(VIEWPORT);
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
await pictureComposer(light, app.address, `${FOLDER}compose-light.png`);
await light.goto(`${app.address}#/phrases`);
await light.getByRole('link', { name: PHRASE }).click();
await light.getByRole('link', { name: 'Variations' }).click();
await light.getByTestId('proposal').first().waitFor();
await light.setViewportSize({ width: 1440, height: 1400 });
await light.screenshot({ path: `${FOLDER}vary-light.png` });
const dark = await openApp(browser, app.address, 'dark');
await picturePractice(dark, `${FOLDER}practise-dark.png`);
await pictureComposer(dark, app.address, `${FOLDER}compose-dark.png`);
await browser.close();
await app.close();
process.stdout.write(`Seven pictures are in ${FOLDER}\n`);
